package dev.lapwing.simulated;

import static dev.lapwing.simulated.WorkshopTrain.PSI;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.fixture.Simulation;
import dev.lapwing.fixture.SimulationFigure;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class SimulatedBenchTest {
    private static final long SECOND = 1_000_000;

    private final BenchFile exact = WorkshopTrain.bench(WorkshopTrain.EXACT);
    private final ReportLog log = new ReportLog();

    private static SimulatedBench open(BenchFile file, long seed) throws BenchFailure {
        return SimulatedBench.open(file, WorkshopTrain.wiring(), WorkshopTrain.simulation(), seed);
    }

    private SimulatedBench armed() throws BenchFailure {
        SimulatedBench bench = open(exact, 1);
        bench.arm();
        return bench;
    }

    private static Map<String, Integer> counts(BenchFile file, Object... pairs) {
        Map<String, Integer> counts = new HashMap<>();
        for (int i = 0; i < pairs.length; i += 2) {
            counts.put(WorkshopTrain.output(file, (String) pairs[i]), (Integer) pairs[i + 1]);
        }
        return counts;
    }

    private double psi(String signal, int row) {
        int column = exact.streams().get(0).points().indexOf(WorkshopTrain.input(exact, signal));
        return log.rows.get(row).counts()[column] * 150.0 / 65535;
    }

    private double lastPsi(String signal) {
        return psi(signal, log.rows.size() - 1);
    }

    @Test
    void samplesLieOnTheGridOfTheirStreamFromOneIntervalAfterArming() throws BenchFailure {
        SimulatedBench bench = armed();
        long from = bench.nowUs();
        bench.advance(from + SECOND, log);
        bench.advance(from + SECOND + 5000, log);

        for (int i = 0; i < 500; i++) {
            assertThat(log.rows.get(i).atUs()).isEqualTo(from + 2000 * (i + 1));
        }
    }

    @Test
    void anUnarmedBenchTellsLevelsAndNothingElse() throws BenchFailure {
        SimulatedBench bench = open(exact, 1);
        bench.advance(bench.nowUs() + SECOND, log);

        assertThat(log.rows).isEmpty();
        assertThat(log.edges).hasSize(5).allMatch(edge -> !edge.level());
        assertThat(log.others).isEmpty();
    }

    @Test
    void theTrainStoodOvernightWithItsMainReservoirsFull() throws BenchFailure {
        SimulatedBench bench = armed();
        Map<String, Double> seen = new HashMap<>();
        bench.observe((us, truth) -> {
            seen.put("pipe", truth.value(WorkshopTrain.signal("brake-pipe@4")));
            seen.put("auxiliary", truth.value(WorkshopTrain.signal("auxiliary-reservoir@4")));
            seen.put("main", truth.value(WorkshopTrain.signal("main-reservoir-pipe@1")));
        });
        bench.advance(bench.nowUs() + SECOND, log);

        assertThat(seen.get("pipe") / PSI).isBetween(-0.01, 0.01);
        assertThat(seen.get("auxiliary") / PSI).isBetween(-0.01, 0.01);
        assertThat(seen.get("main") / PSI).isBetween(90.0, 100.0);
        assertThat(lastPsi("brake-pipe@4")).isBetween(0.0, 0.01);
    }

    @Test
    void aCommandIsExecutedWhenItIsDueAndToldSo() throws BenchFailure {
        SimulatedBench bench = armed();
        long due = bench.nowUs() + 12_345;
        bench.set(1, counts(exact, "handle", 20_000), due, 0);
        bench.advance(due + 10_000, log);

        assertThat(log.executed).containsExactly(new ReportLog.Executed(1, due, due));
    }

    @Test
    void aCommandIsLateByNoMoreThanTheBenchFileSays() throws BenchFailure {
        BenchFile usual = WorkshopTrain.bench(WorkshopTrain.USUAL);
        SimulatedBench bench = open(usual, 7);
        bench.arm();
        for (int i = 1; i <= 200; i++) {
            bench.set(i, counts(usual, "handle", i), bench.nowUs() + 1500, 0);
            bench.advance(bench.nowUs() + 3000, log);
        }

        assertThat(log.executed).hasSize(200);
        assertThat(log.executed)
                .allSatisfy(done -> assertThat(done.atUs() - done.dueUs()).isBetween(0L, 201L));
        assertThat(log.executed)
                .anySatisfy(done -> assertThat(done.atUs() - done.dueUs()).isGreaterThan(150));
    }

    @Test
    void anAnalogueOutputRampsEvenly() throws BenchFailure {
        SimulatedBench bench = armed();
        long due = bench.nowUs() + 1000;
        bench.set(1, counts(exact, "handle", 20_000), due, SECOND);
        bench.advance(due + SECOND / 4, log);
        assertThat(angle()).isBetween(9.8, 10.2);
        bench.advance(due + SECOND / 2, log);
        assertThat(angle()).isBetween(19.8, 20.2);
        bench.advance(due + 2 * SECOND, log);
        assertThat(angle()).isBetween(39.9, 40.1);
    }

    private double angle() {
        return lastPsi("handle-angle") * 120 / 150;
    }

    @Test
    void aLaterSetTakesOverOnlyWhatItNames() throws BenchFailure {
        SimulatedBench bench = armed();
        long due = bench.nowUs() + 1000;
        bench.set(1, counts(exact, "handle", 20_000, "supply/ep", 30_000), due, 4 * SECOND);
        bench.set(2, counts(exact, "supply/ep", 0), due + 2 * SECOND, 0);
        bench.advance(due + 5 * SECOND, log);

        assertThat(angle()).isBetween(39.9, 40.1);
        assertThat(lastPsi("supply/ep")).isBetween(0.0, 0.01);
    }

    @Test
    void theEventsOfATrainComeThroughTheBench() throws BenchFailure {
        SimulatedBench bench = armed();
        long now = bench.nowUs();
        bench.set(1, counts(exact, "other-cab-charge/far", 1), now + 1000, 0);
        bench.advance(now + 60 * SECOND, log);
        assertThat(lastPsi("brake-pipe@1")).isBetween(65.0, 75.0);

        bench.set(2, counts(exact, "other-cab-charge/far", 0, "alarm-valve/vehicle-2", 1), now + 61 * SECOND, 0);
        bench.advance(now + 75 * SECOND, log);
        assertThat(lastPsi("brake-pipe@4")).isBetween(0.0, 5.0);
        assertThat(lastPsi("brake-cylinder@4")).isGreaterThan(10);
    }

    @Test
    void aWireFedFromAnotherCabReadsOnAndFillsTheCylinders() throws BenchFailure {
        SimulatedBench bench = armed();
        long now = bench.nowUs();
        bench.set(1, counts(exact, "wire-feed/application", 1, "wire-feed/holding", 1), now + 1000, 0);
        bench.advance(now + 6 * SECOND, log);

        assertThat(log.edges.stream().filter(ReportLog.Edge::level).map(ReportLog.Edge::point))
                .containsExactly(
                        WorkshopTrain.input(exact, "wire/application"), WorkshopTrain.input(exact, "wire/holding"));
        assertThat(lastPsi("brake-cylinder@4")).isBetween(47.0, 53.0);
    }

    @Test
    void whatIsNotOnTheTrainCannotBeDrivenAndReadsAsOpenAir() throws BenchFailure {
        SimulatedBench bench = SimulatedBench.open(exact, WorkshopTrain.wiring(2), WorkshopTrain.simulation(), 3);
        bench.arm();
        assertThatThrownBy(() -> bench.set(1, counts(exact, "alarm-valve/vehicle-4", 1), bench.nowUs() + 1000, 0))
                .isInstanceOf(BenchFailure.class)
                .hasMessageContaining("alarm-valve/vehicle-4")
                .hasMessageContaining("1 to 2");
        bench.set(1, counts(exact, "other-cab-charge/far", 1), bench.nowUs() + 1000, 0);
        bench.advance(bench.nowUs() + 20 * SECOND, log);

        assertThat(lastPsi("brake-pipe@2")).isGreaterThan(50);
        assertThat(lastPsi("brake-pipe@4")).isZero();
    }

    @Test
    void whatABenchDoesNotDoIsRefusedAndChangesNothing() throws BenchFailure {
        SimulatedBench unarmed = open(exact, 1);
        assertThatThrownBy(() -> unarmed.set(1, counts(exact, "handle", 1), unarmed.nowUs() + 1000, 0))
                .hasMessageContaining("not-armed");
        SimulatedBench bench = armed();
        long now = bench.nowUs();
        assertThatThrownBy(bench::arm).hasMessageContaining("armed");
        assertThatThrownBy(() -> bench.set(1, Map.of("nowhere", 1), now + 1000, 0))
                .hasMessageContaining("unknown-point");
        assertThatThrownBy(() -> bench.set(1, counts(exact, "handle", 60_001), now + 1000, 0))
                .hasMessageContaining("out-of-range");
        assertThatThrownBy(() -> bench.set(1, counts(exact, "handle", 1), now - 1, 0))
                .hasMessageContaining("late");
        bench.set(5, counts(exact, "handle", 1), now + 1000, 0);
        assertThatThrownBy(() -> bench.set(5, counts(exact, "handle", 1), now + 1000, 0))
                .hasMessageContaining("stale");
    }

    @Test
    void safePutsEveryOutputBackDropsWhatWaitsAndDisarms() throws BenchFailure {
        SimulatedBench bench = armed();
        long now = bench.nowUs();
        bench.set(1, counts(exact, "handle", 20_000), now + 1000, 0);
        bench.set(2, counts(exact, "handle", 30_000), now + SECOND, 0);
        bench.advance(now + SECOND / 2, log);
        assertThat(bench.outputsSafe()).isFalse();

        bench.safe();
        assertThat(bench.outputsSafe()).isTrue();
        assertThat(bench.armed()).isFalse();
        bench.advance(now + 2 * SECOND, log);

        assertThat(angle()).isBetween(0.0, 0.01);
        assertThat(log.others).containsExactly("safe host");
        assertThat(log.executed).hasSize(1);
        bench.safe();
        bench.advance(now + 3 * SECOND, log);
        assertThat(log.others).hasSize(1);
        assertThat(log.rows.get(log.rows.size() - 1).atUs()).isGreaterThan(now + 2_900_000);
    }

    @Test
    void equalFilesAndSeedsGiveEqualReportsHoweverTheBenchIsAdvanced() throws BenchFailure {
        String first = reports(11, 20_000, 20_000);
        assertThat(reports(11, 20_000, 20_000)).isEqualTo(first);
        assertThat(reports(11, 1, 50_000)).isEqualTo(first);
        assertThat(reports(12, 20_000, 20_000)).isNotEqualTo(first);
    }

    private String reports(long seed, long least, long most) throws BenchFailure {
        BenchFile usual = WorkshopTrain.bench(WorkshopTrain.USUAL);
        SimulatedBench bench = open(usual, seed);
        ReportLog reports = new ReportLog();
        SplittableRandom slices = new SplittableRandom(least);
        bench.arm();
        long from = bench.nowUs();
        bench.set(1, counts(usual, "other-cab-charge/far", 1), from + 60_000, 0);
        bench.set(2, counts(usual, "wire-feed/application", 1), from + 2 * SECOND, 0);
        bench.set(3, counts(usual, "handle", 20_000), from + 2 * SECOND, SECOND);
        while (bench.nowUs() < from + 5 * SECOND) {
            bench.advance(Math.min(bench.nowUs() + slices.nextLong(least, most + 1), from + 5 * SECOND), reports);
        }
        return reports.text();
    }

    @Test
    void whatMakesNoTrainIsSaidByItsPath() {
        Map<SimulationFigure, Simulation.Spread> figures = WorkshopTrain.figures();
        figures.remove(SimulationFigure.AUXILIARY_VOLUME);
        Simulation lacking = new Simulation(Simulation.ControllerKind.CLASSIC, figures, List.of());
        assertThatThrownBy(() -> SimulatedBench.open(exact, WorkshopTrain.wiring(), lacking, 1))
                .isInstanceOf(BenchFailure.class)
                .hasMessageContaining("train.auxiliary-volume");
        Simulation faulty = new Simulation(
                Simulation.ControllerKind.CLASSIC,
                WorkshopTrain.figures(),
                List.of(new Simulation.WireFault("whistle", 2, Simulation.WireFault.Kind.OPEN, "", 0)));
        assertThatThrownBy(() -> SimulatedBench.open(exact, WorkshopTrain.wiring(), faulty, 1))
                .hasMessageContaining("whistle");
    }

    @Test
    void anOpenWireLeavesTheVehiclesBehindItUnbraked() throws BenchFailure {
        Simulation faulty = new Simulation(
                Simulation.ControllerKind.CLASSIC,
                WorkshopTrain.figures(),
                List.of(new Simulation.WireFault("application", 2, Simulation.WireFault.Kind.OPEN, "", 0)));
        SimulatedBench bench = SimulatedBench.open(exact, WorkshopTrain.wiring(), faulty, 1);
        bench.arm();
        // The feed comes from the far cab, so here the front half is cut off.
        bench.set(1, counts(exact, "wire-feed/application", 1, "wire-feed/holding", 1), bench.nowUs() + 1000, 0);
        bench.advance(bench.nowUs() + 5 * SECOND, log);

        assertThat(lastPsi("brake-cylinder@3")).isGreaterThan(40);
        assertThat(lastPsi("brake-cylinder@2")).isLessThan(1);
    }

    @Test
    void theClockErrsByNoMoreThanTheBenchFileSays() {
        SimulatedClock quick = new SimulatedClock(1e-5);
        assertThat(quick.us(1_000_000_000_000L) - SimulatedClock.START_US).isEqualTo(1_000_010_000L);
        for (long us = SimulatedClock.START_US; us < 2 * SECOND; us += 777) {
            assertThat(quick.us(quick.ns(us))).isEqualTo(us);
            assertThat(quick.us(quick.ns(us) - 1)).isLessThan(us);
        }
    }

    @Test
    void aBenchFileOfAnotherLinkIsRefused() {
        LinkChoice other = null;
        BenchFile file = new BenchFile("f.yaml", "b", other, 0, List.of(), List.of(), List.of(), List.of());
        assertThatThrownBy(() -> open(file, 1)).hasMessageContaining("f.yaml").hasMessageContaining("not simulated");
    }
}
