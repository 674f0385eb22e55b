package dev.lapwing.challenge;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.bench.Silence;
import dev.lapwing.bench.Stream;
import dev.lapwing.fixture.Fixture;
import dev.lapwing.naming.Signal;
import dev.lapwing.signal.Edges;
import dev.lapwing.signal.GrowingTrace;
import dev.lapwing.signal.Trace;
import dev.lapwing.simulated.SimulatedBench;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Drives one simulated specimen through the stimuli of the study and keeps what it really did. */
final class Performance {
    /** Bench time, in µs, that a command is told ahead. */
    private static final long AHEAD_US = 1000;

    private final SimulatedBench bench;
    private final BenchFile file;
    private final Map<String, Double> positions;
    private final Map<Signal, GrowingTrace> traces = new LinkedHashMap<>();
    private final Map<Signal, Edges> wires = new LinkedHashMap<>();
    private final Map<String, Long> stimuli = new HashMap<>();
    private long id;

    private Performance(BenchFile file, Fixture fixture, long seed) throws BenchFailure {
        this.file = errorless(file);
        bench = SimulatedBench.open(this.file, fixture.wiring(), fixture.simulation(), seed);
        positions = fixture.wiring().handle().positions();
    }

    /** What the specimen of that seed does. */
    static Take of(BenchFile file, Fixture fixture, List<Signal> signals, long seed) throws BenchFailure {
        Performance performance = new Performance(file, fixture, seed);
        performance.watch(signals);
        performance.play();
        Map<Signal, Trace> traces = new LinkedHashMap<>(performance.traces);
        return new Take(traces, performance.wires, performance.stimuli, performance.bench.nowUs());
    }

    /** The same bench with a perfect clock, perfect transducers, and commands that are executed when they are due. */
    private static BenchFile errorless(BenchFile file) throws BenchFailure {
        if (!(file.link() instanceof LinkChoice.Simulated link)) {
            throw new BenchFailure(file.file() + " describes a bench that is not simulated");
        }
        LinkChoice perfect = new LinkChoice.Simulated(link.stepSeconds(), 0, 0, 0, 0);
        List<Stream> none = List.of();
        return new BenchFile(file.file(), file.name(), perfect, 0, file.points(), file.inputs(), file.outputs(), none);
    }

    private void watch(List<Signal> signals) {
        for (Signal signal : signals) {
            if (!signal.digital()) {
                traces.put(signal, new GrowingTrace());
            }
        }
        bench.observe((us, truth) -> {
            traces.forEach((signal, trace) -> {
                if (trace.size() == 0 || us > trace.timeUs(trace.size() - 1)) {
                    trace.append(us, truth.value(signal));
                }
            });
            for (Signal signal : signals) {
                if (signal.digital()) {
                    boolean level = truth.value(signal) != 0;
                    wires.computeIfAbsent(signal, s -> new Edges(level, us)).append(us, level);
                }
            }
        });
    }

    private void play() throws BenchFailure {
        bench.arm();
        drive("power", Map.of("supply/ep", 110.0, "supply/control", 110.0, "speed", 0.0), 3);
        drive("charge", Map.of("master-switch", 1.0, "deadman", 1.0), 170);
        handle("ep-apply", "full-ep", 9);
        handle("ep-release", "release", 12);
        handle("full-service", "full-service", 14);
        handle("recharge", "release", 60);
        handle("emergency", "emergency", 12);
        handle("restore", "release", 60);
        drive("reverser", Map.of("reverser/forward", 1.0), 3);
        drive("deadman", Map.of("deadman", 0.0), 12);
    }

    private void handle(String stimulus, String position, double seconds) throws BenchFailure {
        drive(stimulus, Map.of("handle", positions.get(position)), seconds);
    }

    private void drive(String stimulus, Map<String, Double> values, double seconds) throws BenchFailure {
        Map<String, Integer> counts = new HashMap<>();
        values.forEach((key, value) -> file.outputs().stream()
                .filter(output -> output.actuator().key().equals(key))
                .forEach(output -> counts.put(output.point(), output.counts(value))));
        long atUs = bench.nowUs() + AHEAD_US;
        bench.set(id++, counts, atUs, 0);
        stimuli.put(stimulus, atUs);
        // Only the truth is wanted.
        bench.advance(atUs + Math.round(seconds * 1e6), Silence.INSTANCE);
    }
}
