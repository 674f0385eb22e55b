package dev.lapwing.challenge;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.bench.Output;
import dev.lapwing.bench.Point;
import dev.lapwing.bench.PointKind;
import dev.lapwing.bench.Silence;
import dev.lapwing.bench.Stream;
import dev.lapwing.fixture.Fixture;
import dev.lapwing.naming.Actuator;
import dev.lapwing.naming.Signal;
import dev.lapwing.naming.SwitchKind;
import dev.lapwing.signal.Edges;
import dev.lapwing.signal.GrowingTrace;
import dev.lapwing.signal.Trace;
import dev.lapwing.simulated.SimulatedBench;
import dev.lapwing.source.Place;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** Drives one simulated specimen through the stimuli of the study and keeps what it really did. */
final class SpecimenDrive {
    /** What sits on a vehicle that another train may not have. */
    private static final Set<SwitchKind> VEHICLES = EnumSet.of(
            SwitchKind.ALARM_VALVE, SwitchKind.CREW_VALVE, SwitchKind.HOSE_BURST, SwitchKind.COCK, SwitchKind.PARTING);

    private static final Place NOWHERE = new Place("study", 1, 1);

    /** Bench time, in µs, that a command is told ahead. */
    private static final long AHEAD_US = 1000;

    private final SimulatedBench bench;
    private final BenchFile file;
    private final List<Programme.Step> steps;
    private final Map<Signal, GrowingTrace> traces = new LinkedHashMap<>();
    private final Map<Signal, Edges> wires = new LinkedHashMap<>();
    private final Map<String, Long> stimuli = new HashMap<>();
    private long id;

    private SpecimenDrive(BenchFile file, Fixture fixture, long seed) throws BenchFailure {
        steps = Programme.of(fixture.wiring());
        this.file = errorless(file, Programme.onTheTrain(steps));
        bench = SimulatedBench.open(this.file, fixture.wiring(), fixture.simulation(), seed);
    }

    /** What the specimen of that seed does. */
    static Take of(BenchFile file, Fixture fixture, List<Signal> signals, long seed) throws BenchFailure {
        SpecimenDrive drive = new SpecimenDrive(file, fixture, seed);
        drive.watch(signals);
        drive.play();
        Map<Signal, Trace> traces = new LinkedHashMap<>(drive.traces);
        return new Take(traces, drive.wires, drive.stimuli, drive.bench.nowUs());
    }

    /**
     * The same bench with a perfect clock, perfect transducers, and commands that are executed when they are due; of
     * what acts on the train just what the programme needs, wherever that train has it.
     */
    private static BenchFile errorless(BenchFile file, Set<Actuator> onTheTrain) throws BenchFailure {
        if (!(file.link() instanceof LinkChoice.Simulated link)) {
            throw new BenchFailure(file.file() + " describes a bench that is not simulated");
        }
        LinkChoice perfect = new LinkChoice.Simulated(link.stepSeconds(), 0, 0, 0, 0);
        List<Point> points = new ArrayList<>(file.points());
        List<Output> outputs = new ArrayList<>(file.outputs().stream()
                .filter(output -> !(output.actuator() instanceof Actuator.Switch of) || !VEHICLES.contains(of.kind()))
                .toList());
        for (Actuator actuator : onTheTrain) {
            boolean there =
                    outputs.stream().anyMatch(output -> output.actuator().equals(actuator));
            if (!there) {
                String point = "train-" + points.size();
                points.add(new Point(point, PointKind.DIGITAL_OUT, 0, 1, 0, 0, 0, 0));
                outputs.add(new Output(actuator, point, 0, 1, NOWHERE));
            }
        }
        List<Stream> none = List.of();
        return new BenchFile(file.file(), file.name(), perfect, 0, points, file.inputs(), outputs, none);
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
        for (Programme.Step step : steps) {
            drive(step);
        }
    }

    private void drive(Programme.Step step) throws BenchFailure {
        Map<String, Integer> counts = new HashMap<>();
        step.values()
                .forEach((key, value) -> file.outputs().stream()
                        .filter(output -> output.actuator().key().equals(key))
                        .forEach(output -> counts.put(output.point(), output.counts(value))));
        long atUs = bench.nowUs() + AHEAD_US;
        bench.set(id++, counts, atUs, 0);
        stimuli.put(step.stimulus(), atUs);
        // Only the truth is wanted.
        bench.advance(atUs + Math.round(step.seconds() * 1e6), Silence.INSTANCE);
    }
}
