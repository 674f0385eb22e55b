package dev.lapwing.measure;

import static dev.lapwing.measure.HandMade.PSI;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Calibration;
import dev.lapwing.bench.Calibration.Pair;
import dev.lapwing.bench.Input;
import dev.lapwing.bench.SampleBlock;
import dev.lapwing.bench.SelectiveListener;
import dev.lapwing.measure.Measurement.Measured;
import dev.lapwing.naming.Keys;
import dev.lapwing.naming.PressureKind;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import dev.lapwing.plan.Course.ExpectationWindow;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.signal.GrowingTrace;
import dev.lapwing.simulated.SimulatedBench;
import dev.lapwing.simulated.WorkshopTrain;
import dev.lapwing.uncertainty.Estimate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/**
 * Whether the simulated truth lies within the uncertainty that is stated: of each quantity over many specimens, benches
 * and noises. A perfect statement with k = 2 would hold it in 95 % of cases.
 */
class TruthTest {
    private static final int SEEDS = Integer.getInteger("lapwing.seeds", 4);
    private static final List<String> SIGNALS =
            List.of("brake-cylinder@1", "brake-cylinder@4", "brake-pipe@1", "brake-pipe@4");

    @Test
    void theTruthLiesWithinTheStatedUncertainty() throws BenchFailure {
        Map<String, List<Double>> errors = new LinkedHashMap<>();
        for (int seed = 1; seed <= SEEDS; seed++) {
            Run run = new Run(seed);
            run.checks()
                    .forEach((name, check) ->
                            errors.computeIfAbsent(name, n -> new ArrayList<>()).add(run.errorInU(check)));
        }
        int held = 0;
        int all = 0;
        for (Map.Entry<String, List<Double>> quantity : errors.entrySet()) {
            for (double error : quantity.getValue()) {
                assertThat(Math.abs(error)).as(quantity.getKey()).isLessThan(2);
                held += Math.abs(error) <= 1 ? 1 : 0;
                all++;
            }
        }
        assertThat(held / (double) all).as("%d of %d: %s", held, all, errors).isGreaterThan(0.88);
    }

    /** Counts are left below zero, so that an empty cylinder is read and not cut off. */
    private static BenchFile liveZero(BenchFile file) {
        return file.withInputs(file.inputs().stream()
                .map(input -> new Input(
                        input.signal(), input.point(), input.calibration().map(TruthTest::liveZero), input.place()))
                .toList());
    }

    private static Calibration liveZero(Calibration from) {
        double full = from.points().get(1).value();
        return new Calibration(
                List.of(new Pair(2000, 0), new Pair(62_000, full)),
                from.standard(),
                from.drift(),
                from.noise(),
                from.date(),
                from.due(),
                from.certificate());
    }

    /** A charged train is braked electrically, released, and then dumped. */
    private static final class Run implements SelectiveListener {
        private final GrowingRecording recording;
        private final HandMade truth = new HandMade(1000, 0);
        private final Map<Signal, GrowingTrace> truths = new HashMap<>();
        private final Map<Long, Long> executed = new HashMap<>();
        private final BenchFile file = liveZero(WorkshopTrain.bench(WorkshopTrain.USUAL));
        private long id;

        Run(int seed) throws BenchFailure {
            recording = new GrowingRecording(file);
            SIGNALS.forEach(key -> truths.put(Keys.signal(key).orElseThrow(), new GrowingTrace()));
            try (SimulatedBench bench =
                    SimulatedBench.open(file, WorkshopTrain.wiring(), WorkshopTrain.simulation(), seed)) {
                bench.arm();
                drive(bench, Map.of("supply/ep", 110.0, "supply/control", 110.0, "master-switch", 1.0, "deadman", 1.0));
                bench.advance(bench.nowUs() + 170_000_000, this);
                bench.observe((benchUs, what) -> truths.forEach((signal, trace) -> {
                    if (trace.size() == 0 || benchUs > trace.timeUs(trace.size() - 1)) {
                        trace.append(benchUs, what.value(signal));
                    }
                }));
                bench.advance(bench.nowUs() + 1_000_000, this);
                drive(bench, Map.of("handle", 40.0));
                bench.advance(bench.nowUs() + 8_000_000, this);
                drive(bench, Map.of("handle", 0.0));
                bench.advance(bench.nowUs() + 12_000_000, this);
                drive(bench, Map.of("handle", 105.0));
                bench.advance(bench.nowUs() + 8_000_000, this);
            }
            truths.forEach((signal, trace) -> truth.exact(signal, trace));
        }

        private void drive(SimulatedBench bench, Map<String, Double> values) throws BenchFailure {
            Map<String, Integer> counts = new HashMap<>();
            values.forEach((key, value) -> file.outputs().stream()
                    .filter(output -> output.actuator().key().equals(key))
                    .forEach(output -> counts.put(output.point(), output.counts(value))));
            bench.set(id++, counts, bench.nowUs() + 1000, 0);
        }

        Map<String, Watch> checks() {
            Map<String, Watch> checks = new LinkedHashMap<>();
            for (int vehicle : new int[] {1, 4}) {
                Signal cylinder = new Signal.Pressure(PressureKind.BRAKE_CYLINDER, vehicle);
                Signal pipe = new Signal.Pressure(PressureKind.BRAKE_PIPE, vehicle);
                for (double level : new double[] {10, 25, 45}) {
                    checks.put("rise of " + vehicle + " to " + level, new Watch(1, crossing(cylinder, true, level)));
                    checks.put("fall of " + vehicle + " to " + level, new Watch(2, crossing(cylinder, false, level)));
                }
                for (double level : new double[] {60, 52, 20, 10}) {
                    checks.put("dump of " + vehicle + " to " + level, new Watch(3, crossing(pipe, false, level)));
                }
                checks.put("level of " + vehicle, new Watch(1, level(cylinder)));
                checks.put("movement of " + vehicle, new Watch(1, movement(cylinder)));
            }
            return checks;
        }

        /** A check that counts from the command of that number. */
        record Watch(long command, Check check) {}

        private static Check crossing(Signal signal, boolean rising, double psi) {
            return new Check.Crossing(signal, rising, psi * PSI, 8, Limits.atMost(Dimension.TIME, 8));
        }

        private static Check level(Signal signal) {
            return new Check.SettledLevel(signal, 0, 6, 0.5, Optional.empty(), Limits.psi(0, 60));
        }

        private static Check movement(Signal signal) {
            return new Check.Movement(signal, 0.5, 6, 0.5, Limits.psi(0, 60));
        }

        /** Measured minus true, in units of the expanded uncertainty. */
        double errorInU(Watch watch) {
            Estimate measured = measure(recording, watch);
            Estimate really = measure(truth, watch);
            return (measured.value() - really.value()) / measured.expanded();
        }

        private Estimate measure(Recording from, Watch watch) {
            long originUs = executed.get(watch.command);
            ExpectationWindow seen = new ExpectationWindow("x", originUs, originUs, recording.untilUs(), true);
            Measurement found =
                    new Measuring(from, new Words(PressureDisplay.PSI)).measure(watch.check, seen, 0, Map.of());
            assertThat(found).as("%s", found).isInstanceOf(Measured.class);
            return ((Measured) found).estimate();
        }

        @Override
        public void samples(SampleBlock block) {
            recording.samples(block);
        }

        @Override
        public void edge(String point, long atUs, boolean level) {
            recording.edge(point, atUs, level);
        }

        @Override
        public void executed(long id, long dueUs, long atUs) {
            executed.put(id, atUs);
        }
    }
}
