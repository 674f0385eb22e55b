package dev.lapwing.simulated;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Input;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.bench.Point;
import dev.lapwing.bench.PointKind;
import dev.lapwing.bench.Tube;
import dev.lapwing.fixture.Simulation;
import dev.lapwing.fixture.SimulationFigure;
import dev.lapwing.uncertainty.Streams;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import org.junit.jupiter.api.Test;

class BenchPartsTest {
    private static final BenchFile FILE = WorkshopTrain.bench(WorkshopTrain.USUAL);

    @Test
    void everyFigureIsDrawnInsideItsTolerance() throws BenchFailure {
        Map<SimulationFigure, Simulation.Spread> figures = WorkshopTrain.figures();
        for (long seed = 0; seed < 50; seed++) {
            DrawnFigures specimen = new DrawnFigures(WorkshopTrain.simulation(), 4, new Streams(seed));
            for (Map.Entry<SimulationFigure, Simulation.Spread> entry : figures.entrySet()) {
                Simulation.Spread spread = entry.getValue();
                for (int k = 0; k < 4; k++) {
                    assertThat(specimen.of(entry.getKey(), k))
                            .as("%s, seed %s", entry.getKey().path(), seed)
                            .isCloseTo(spread.nominal(), within(spread.halfWidth() + 1e-12));
                }
            }
        }
    }

    @Test
    void oneFigureMoreOrLessChangesNoOther() throws BenchFailure {
        Map<SimulationFigure, Simulation.Spread> fewer = WorkshopTrain.figures();
        fewer.remove(SimulationFigure.PIPE_BORE);
        DrawnFigures all = new DrawnFigures(WorkshopTrain.simulation(), 4, new Streams(5));
        DrawnFigures without = new DrawnFigures(
                new Simulation(Simulation.ControllerKind.CLASSIC, fewer, List.of()), 4, new Streams(5));

        for (SimulationFigure figure : fewer.keySet()) {
            assertThat(without.of(figure, 3)).isEqualTo(all.of(figure, 3));
        }
    }

    @Test
    void vehiclesDifferAndALongerTrainBeginsAsTheShorterOne() throws BenchFailure {
        DrawnFigures four = new DrawnFigures(WorkshopTrain.simulation(), 4, new Streams(5));
        DrawnFigures twelve = new DrawnFigures(WorkshopTrain.simulation(), 12, new Streams(5));
        SimulationFigure choke = SimulationFigure.EP_APPLY;

        assertThat(four.of(choke, 0)).isNotEqualTo(four.of(choke, 1));
        for (int k = 0; k < 4; k++) {
            assertThat(twelve.of(choke, k)).isEqualTo(four.of(choke, k));
        }
    }

    @Test
    void seedsDrawDifferentSpecimens() throws BenchFailure {
        double first = new DrawnFigures(WorkshopTrain.simulation(), 4, new Streams(1)).of(SimulationFigure.EP_APPLY, 0);
        double second =
                new DrawnFigures(WorkshopTrain.simulation(), 4, new Streams(2)).of(SimulationFigure.EP_APPLY, 0);

        assertThat(first).isNotEqualTo(second);
    }

    @Test
    void aTransducersErrorIsConstantAndItsNoiseAsWideAsTheBenchFileSays() throws BenchFailure {
        LinkChoice.Simulated figures = (LinkChoice.Simulated) FILE.link();
        double[] errors = new double[400];
        double squares = 0;
        for (int seed = 0; seed < errors.length; seed++) {
            Transducer transducer = transducer(figures, seed);
            double sum = 0;
            double square = 0;
            int n = 1000;
            for (int i = 0; i < n; i++) {
                double error = transducer.sample(75 * WorkshopTrain.PSI) / 65535.0 - 0.5;
                sum += error;
                square += error * error;
            }
            errors[seed] = sum / n;
            double deviation = Math.sqrt(square / n - errors[seed] * errors[seed]);
            assertThat(deviation).isCloseTo(2e-4, within(2.5e-5));
            squares += errors[seed] * errors[seed];
        }
        // The standard deviation of 400 draws is known to about 3.5 %.
        assertThat(Math.sqrt(squares / errors.length)).isCloseTo(4e-4, within(0.15 * 4e-4));
    }

    /** Both ends are off oppositely by half of it, and the middle by nothing. */
    @Test
    void aTransducersSpanIsOffByAsMuchAsTheBenchFileSays() throws BenchFailure {
        LinkChoice.Simulated figures = new LinkChoice.Simulated(1e-3, 0, 0, OptionalDouble.of(1e-2), 0, 0);
        double squares = 0;
        int seeds = 400;
        for (int seed = 0; seed < seeds; seed++) {
            Transducer transducer = transducer(figures, seed);
            double low = transducer.sample(30 * WorkshopTrain.PSI) / 65535.0 - 30 / 150.0;
            double middle = transducer.sample(75 * WorkshopTrain.PSI) / 65535.0 - 0.5;
            double high = transducer.sample(120 * WorkshopTrain.PSI) / 65535.0 - 120 / 150.0;
            assertThat(middle).isCloseTo(0, within(1e-5));
            assertThat(high).isCloseTo(-low, within(3e-5));
            squares += (high - low) * (high - low) / (0.6 * 0.6);
        }
        // The standard deviation of 400 draws is known to about 3.5 %.
        assertThat(Math.sqrt(squares / seeds)).isCloseTo(1e-2, within(0.15 * 1e-2));
    }

    private static Transducer transducer(LinkChoice.Simulated figures, long seed) throws BenchFailure {
        Input input = FILE.inputs().get(0);
        return new Transducer(input, FILE.points().get(0), figures, new Streams(seed));
    }

    @Test
    void aTransducerStaysWithinTheRangeOfItsPoint() throws BenchFailure {
        Transducer transducer = transducer(WorkshopTrain.EXACT, 1);

        assertThat(transducer.sample(-10 * WorkshopTrain.PSI)).isZero();
        assertThat(transducer.sample(1000 * WorkshopTrain.PSI)).isEqualTo(65535);
    }

    @Test
    void aStampIsLateByTheFilterAndNoMoreThanItsBoundBesides() throws BenchFailure {
        for (long seed = 0; seed < 100; seed++) {
            assertThat(transducer(WorkshopTrain.EXACT, seed).lagNs())
                    .isBetween(
                            (WorkshopTrain.FILTER_US - WorkshopTrain.STAMP_US) * 1000L,
                            (WorkshopTrain.FILTER_US + WorkshopTrain.STAMP_US) * 1000L);
        }
    }

    @Test
    void aTubeMakesAStampLaterStill() throws BenchFailure {
        Input plain = FILE.inputs().get(0);
        Input tubed = new Input(plain.signal(), plain.point(), plain.calibration(), new Tube(3000, 500), plain.place());
        Set<Long> seen = new HashSet<>();
        for (long seed = 0; seed < 100; seed++) {
            long without = new Transducer(plain, FILE.points().get(0), WorkshopTrain.EXACT, new Streams(seed)).lagNs();
            long with = new Transducer(tubed, FILE.points().get(0), WorkshopTrain.EXACT, new Streams(seed)).lagNs();
            assertThat(with - without).isBetween(2_500_000L, 3_500_000L);
            seen.add(with - without);
        }
        assertThat(seen).hasSizeGreaterThan(90);
    }

    @Test
    void aSampleShowsWhatWasAtTheTerminalOneFilterDelayBefore() {
        TruthHistory history = new TruthHistory(1, 3_000_000);
        for (long ms = 0; ms <= 1000; ms++) {
            history.note(ms * 1_000_000, new double[] {ms});
            if (ms >= 3) {
                assertThat(history.at(0, ms * 1_000_000 - 800_000)).isCloseTo(ms - 0.8, within(1e-9));
                assertThat(history.at(0, ms * 1_000_000 - 2_500_000)).isCloseTo(ms - 2.5, within(1e-9));
            }
        }
    }

    @Test
    void aStepInTheTruthIsNotSeenBeforeItHappens() {
        TruthHistory history = new TruthHistory(1, 1_000_000);
        history.note(0, new double[] {1});
        history.note(400, new double[] {1});
        history.note(400, new double[] {9});
        history.note(1000, new double[] {9});

        assertThat(history.at(0, 399)).isEqualTo(1);
        assertThat(history.at(0, 400)).isEqualTo(9);
    }

    @Test
    void theHistoryGrowsWhereManyInstantsFallIntoIt() {
        TruthHistory history = new TruthHistory(2, 1_000_000);
        for (long ns = 0; ns <= 2_000_000; ns += 1000) {
            history.note(ns, new double[] {ns, -ns});
        }
        assertThat(history.at(0, 1_000_500)).isEqualTo(1_000_500);
        assertThat(history.at(1, 1_000_500)).isEqualTo(-1_000_500);
    }

    @Test
    void aPulseShorterThanTheGlitchTimeIsNotReportedAndALongerOneIsWithItsFirstTransition() {
        Point point = new Point("D", PointKind.DIGITAL_IN, 0, 1, 0, 0, 0, 2500);
        EdgeDetector detector = new EdgeDetector(point, new SimulatedClock(0), new Streams(1));
        ReportLog log = new ReportLog();
        boolean[] level = {false, true, true, false, false, true, true, true, true, false, false, false, false};
        for (int ms = 0; ms < level.length; ms++) {
            detector.look(level[ms], ms * 1_000_000L, log);
        }

        long start = SimulatedClock.START_US;
        assertThat(log.edges)
                .containsExactly(
                        new ReportLog.Edge("D", start, false),
                        new ReportLog.Edge("D", start + 5000, true),
                        new ReportLog.Edge("D", start + 9000, false));
    }

    @Test
    void aPulseOfOneStepIsSeenWhereTheGlitchTimeIsShorter() {
        Point point = new Point("D", PointKind.DIGITAL_IN, 0, 1, 0, 0, 0, 200);
        EdgeDetector detector = new EdgeDetector(point, new SimulatedClock(0), new Streams(1));
        ReportLog log = new ReportLog();
        boolean[] level = {false, true, false, false};
        for (int ms = 0; ms < level.length; ms++) {
            detector.look(level[ms], ms * 1_000_000L, log);
        }

        assertThat(log.edges).extracting(ReportLog.Edge::level).containsExactly(false, true, false);
    }

    @Test
    void aStampOfAnEdgeErrsWithinItsBound() {
        Point point = new Point("D", PointKind.DIGITAL_IN, 0, 1, 0, 0, 10, 0);
        EdgeDetector detector = new EdgeDetector(point, new SimulatedClock(0), new Streams(3));
        ReportLog log = new ReportLog();
        for (int ms = 0; ms < 2000; ms++) {
            detector.look(ms % 2 == 1, ms * 1_000_000L, log);
        }
        for (int ms = 1; ms < 2000; ms++) {
            assertThat(log.edges.get(ms).atUs() - SimulatedClock.START_US - ms * 1000L)
                    .isBetween(-10L, 10L);
        }
        assertThat(log.edges.stream()
                        .map(e -> (e.atUs() - SimulatedClock.START_US) % 1000)
                        .distinct()
                        .count())
                .isGreaterThan(15);
    }
}
