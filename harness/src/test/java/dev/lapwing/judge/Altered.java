package dev.lapwing.judge;

import dev.lapwing.measure.Recording;
import dev.lapwing.measure.Sampled;
import dev.lapwing.measure.Switched;
import dev.lapwing.naming.Signal;
import dev.lapwing.signal.Edges;
import dev.lapwing.signal.GrowingTrace;
import dev.lapwing.signal.Window;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * A recording on another time origin, or of every n-th sample alone.
 *
 * @param of      the recording itself
 * @param laterUs how much later everything is stamped
 * @param every   which samples are kept: the first, and every so manieth after it
 */
record Altered(Recording of, long laterUs, int every) implements Recording {
    @Override
    public Set<Signal> signals() {
        return of.signals();
    }

    @Override
    public Optional<Sampled> sampled(Signal signal) {
        return of.sampled(signal).map(sampled -> {
            GrowingTrace trace = new GrowingTrace();
            for (int i = 0; i < sampled.trace().size(); i += every) {
                trace.append(
                        sampled.trace().timeUs(i) + laterUs, sampled.trace().value(i));
            }
            return new Sampled(
                    trace, sampled.instrument(), sampled.least(), sampled.greatest(), every * sampled.everyUs());
        });
    }

    @Override
    public Optional<Switched> switched(Signal.Wire wire) {
        return of.switched(wire).map(switched -> {
            Edges edges = new Edges(
                    switched.edges().at(switched.edges().fromUs()),
                    switched.edges().fromUs() + laterUs);
            for (int i = 0; i < switched.edges().size(); i++) {
                edges.append(
                        switched.edges().timeUs(i) + laterUs, switched.edges().level(i));
            }
            return new Switched(edges, switched.instrument());
        });
    }

    @Override
    public List<Window> lost(Signal signal) {
        return of.lost(signal).stream()
                .map(window -> new Window(window.fromUs() + laterUs, window.toUs() + laterUs))
                .toList();
    }

    @Override
    public long untilUs() {
        return of.untilUs() + laterUs;
    }
}
