package dev.lapwing.challenge;

import dev.lapwing.measure.Recording;
import dev.lapwing.measure.Sampled;
import dev.lapwing.measure.Switched;
import dev.lapwing.naming.Signal;
import dev.lapwing.signal.Edges;
import dev.lapwing.signal.Trace;
import dev.lapwing.signal.Window;
import dev.lapwing.simulated.Replay;
import dev.lapwing.uncertainty.Instrument;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * What one simulated train and unit really did, on an errorless clock: read as a recording, it gives the true value of
 * whatever is measured.
 *
 * @param traces  true values every millisecond
 * @param wires   true levels
 * @param stimuli true time in µs of each stimulus, by its name
 * @param untilUs end of it
 */
record Take(Map<Signal, Trace> traces, Map<Signal, Edges> wires, Map<String, Long> stimuli, long untilUs)
        implements Recording {
    private static final long EVERY_US = 1000;
    private static final double ANYTHING = 1e9;

    private static Instrument errorless(Signal signal) {
        return new Instrument("true " + signal.key(), 0, 0, 0, 0, 0, true, "true", 0);
    }

    /** The truth from that time in µs on, as it is replayed. */
    Replay.Source from(long startUs) {
        return (signal, ns) -> {
            long us = startUs + ns / 1000;
            return signal.digital() ? (wires.get(signal).at(us) ? 1 : 0) : between(traces.get(signal), us);
        };
    }

    private static double between(Trace trace, long us) {
        int right = trace.firstAtOrAfter(us);
        if (right == 0 || right == trace.size() || trace.timeUs(right) == us) {
            return trace.value(Math.min(right, trace.size() - 1));
        }
        double left = trace.value(right - 1);
        double share = (us - trace.timeUs(right - 1)) / (double) (trace.timeUs(right) - trace.timeUs(right - 1));
        return left + share * (trace.value(right) - left);
    }

    @Override
    public Set<Signal> signals() {
        Set<Signal> all = new LinkedHashSet<>(traces.keySet());
        all.addAll(wires.keySet());
        return all;
    }

    @Override
    public Optional<Sampled> sampled(Signal signal) {
        return Optional.ofNullable(traces.get(signal))
                .map(trace -> new Sampled(trace, errorless(signal), -ANYTHING, ANYTHING, EVERY_US));
    }

    @Override
    public Optional<Switched> switched(Signal.Wire wire) {
        return Optional.ofNullable(wires.get(wire)).map(edges -> new Switched(edges, errorless(wire)));
    }

    @Override
    public List<Window> lost(Signal signal) {
        return List.of();
    }
}
