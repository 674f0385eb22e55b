package dev.lapwing.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lapwing.signal.CrossingSearch.Progress;
import java.util.SplittableRandom;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class CrossingSearchTest {
    private static final long EVERY_US = 2000;
    private static final Window WHOLE = new Window(0, 60_000_000);

    /** Slopes from those of an emergency dump to those of a slow recharge, noise of a pipe transducer, in psi. */
    @ParameterizedTest
    @ValueSource(doubles = {160, 20, 5, 1, 0.2})
    void noiseNeitherAdvancesNorDelaysACrossing(double slope) {
        double noise = 0.05;
        double crosses = 40 / slope;
        int runs = 200;
        int held = 0;
        double sum = 0;
        double claimed = 0;
        for (int seed = 0; seed < runs; seed++) {
            SplittableRandom random = new SplittableRandom(seed);
            int samples = (int) Math.min(40_000, (crosses + 5) / (EVERY_US * 1e-6));
            double start = crosses - Math.min(crosses, 20);
            Trace trace = Traces.noisy(samples, EVERY_US, t -> slope * (t + start), noise, random);
            CrossingSearch search = new CrossingSearch(trace, 40, true, WHOLE, noise, EVERY_US);
            assertThat(search.advance(Long.MAX_VALUE, true)).as("seed %d", seed).isEqualTo(Progress.FOUND);
            LevelCrossing found = search.found().orElseThrow();
            double error = found.seconds() - (crosses - start);
            double u = Math.hypot(found.fromNoise(), found.curvature() / Math.sqrt(3));
            held += Math.abs(error) <= 2 * u ? 1 : 0;
            sum += error;
            claimed += u;
        }
        assertThat(held).as("of %d within k = 2", runs).isGreaterThanOrEqualTo(185);
        assertThat(Math.abs(sum / runs)).as("bias").isLessThan(0.3 * claimed / runs);
        assertThat(claimed / runs).as("claimed").isLessThan(4 * noise / slope);
    }

    @Test
    void followingATraceAsItGrowsFindsWhatIsFoundAtItsEnd() {
        for (int seed = 0; seed < 300; seed++) {
            SplittableRandom random = new SplittableRandom(seed);
            DoubleUnaryOperator shape = shape(random);
            double noise = random.nextInt(3) * 0.03;
            GrowingTrace whole = Traces.noisy(3000, EVERY_US, shape, noise, random);
            double level = 2 + random.nextDouble();
            boolean rising = random.nextBoolean();
            Window window = new Window(200_000 + random.nextInt(500_000), 2_000_000 + random.nextInt(2_000_000));

            CrossingSearch batch = new CrossingSearch(whole, level, rising, window, noise, EVERY_US);
            Progress end = batch.advance(whole.timeUs(whole.size() - 1), true);

            GrowingTrace growing = new GrowingTrace();
            CrossingSearch live = new CrossingSearch(growing, level, rising, window, noise, EVERY_US);
            Progress progress = Progress.LOOKING;
            int i = 0;
            while (i < whole.size() && !progress.over()) {
                for (int n = random.nextInt(40); n >= 0 && i < whole.size(); n--, i++) {
                    growing.append(whole.timeUs(i), whole.value(i));
                }
                progress = live.advance(growing.timeUs(growing.size() - 1), false);
            }
            if (!progress.over()) {
                progress = live.advance(Long.MAX_VALUE, true);
            }
            assertThat(progress).as("seed %d", seed).isEqualTo(end);
            assertThat(live.found()).as("seed %d", seed).isEqualTo(batch.found());
        }
    }

    private static DoubleUnaryOperator shape(SplittableRandom random) {
        double tau = 0.05 + random.nextDouble();
        double start = random.nextDouble();
        double top = 1 + 3 * random.nextDouble();
        return switch (random.nextInt(3)) {
            case 0 -> t -> t < start ? 1 : 1 + top * (1 - StrictMath.exp(-(t - start) / tau));
            case 1 -> t -> 4 - top * Math.min(1, t / (1 + tau));
            default -> t -> 2.5 + top * StrictMath.sin(t / tau);
        };
    }

    @Test
    void aTimeShiftOfEverythingShiftsNothing() {
        SplittableRandom random = new SplittableRandom(7);
        GrowingTrace trace = Traces.noisy(2000, EVERY_US, t -> 2 * t, 0.01, random);
        GrowingTrace late = new GrowingTrace();
        long shift = 123_456_789;
        for (int i = 0; i < trace.size(); i++) {
            late.append(trace.timeUs(i) + shift, trace.value(i));
        }
        CrossingSearch one = new CrossingSearch(trace, 3, true, new Window(0, 4_000_000), 0.01, EVERY_US);
        CrossingSearch other = new CrossingSearch(late, 3, true, new Window(shift, 4_000_000 + shift), 0.01, EVERY_US);
        one.advance(Long.MAX_VALUE, true);
        other.advance(Long.MAX_VALUE, true);
        assertThat(other.found().orElseThrow().seconds())
                .isEqualTo(one.found().orElseThrow().seconds());
    }

    /** A supply that is switched off between two samples went through every level at any time between them. */
    @Test
    void aJumpBetweenTwoSamplesLeavesItsWholeIntervalOpen() {
        for (double noise : new double[] {0, 0.1}) {
            for (long jumpUs = 1_000_100; jumpUs < 1_002_000; jumpUs += 300) {
                double at = jumpUs * 1e-6;
                Trace trace = Traces.noisy(2000, EVERY_US, t -> t < at ? 110 : 0, noise, new SplittableRandom(1));
                CrossingSearch search = new CrossingSearch(trace, 77, false, WHOLE, noise, EVERY_US);
                assertThat(search.advance(Long.MAX_VALUE, true)).isEqualTo(Progress.FOUND);
                LevelCrossing found = search.found().orElseThrow();
                assertThat(found.curvature()).isBetween(1e-3, 2e-3);
                assertThat(Math.abs(found.seconds() - at)).isLessThanOrEqualTo(found.curvature());
            }
        }
    }

    @Test
    void aSpikeShorterThanTheHoldTimeIsNoCrossing() {
        Trace trace = Traces.of(2000, EVERY_US, t -> t >= 1 && t < 1.006 ? 5 : t < 2 ? 1 : 1 + 10 * (t - 2));
        LevelCrossing found = found(trace, 3);
        assertThat(found.seconds()).isCloseTo(2.2, within(1e-6));
    }

    @Test
    void aSignalThatNeverComesNearIsNeverFound() {
        Trace trace = Traces.of(2000, EVERY_US, t -> 1);
        CrossingSearch search = new CrossingSearch(trace, 3, true, new Window(0, 3_000_000), 0, EVERY_US);
        assertThat(search.advance(Long.MAX_VALUE, false)).isEqualTo(Progress.NEVER);
    }

    @Test
    void aSignalBeyondTheLevelBeforehandDidNotCrossIt() {
        Trace trace = Traces.of(2000, EVERY_US, t -> 4);
        CrossingSearch search = new CrossingSearch(trace, 3, true, new Window(1_000_000, 3_000_000), 0, EVERY_US);
        assertThat(search.advance(Long.MAX_VALUE, false)).isEqualTo(Progress.BEYOND_BEFORE);
    }

    /** A plateau one tenth of the noise under the level reaches it in places and never crosses. */
    @Test
    void aLineThatCrossesBeyondTheLastSampleTellsNoTimeAndBreaksNothing() {
        for (int seed = 0; seed < 300; seed++) {
            Trace trace = Traces.noisy(600, EVERY_US, t -> 40 + 0.05 * (t - 1.1), 0.05, new SplittableRandom(seed));
            long untilUs = 1_000_000 + 500 * seed;
            CrossingSearch search = new CrossingSearch(trace, 40.02, true, WHOLE, 0.05, EVERY_US);
            assertThat(search.advance(untilUs, true).over()).as("seed %d", seed).isTrue();
        }
    }

    @Test
    void aSignalThatHangsUnderTheLevelTellsNoTime() {
        SplittableRandom random = new SplittableRandom(11);
        Trace trace = Traces.noisy(10_000, EVERY_US, t -> t < 1 ? 0 : 2.995, 0.05, random);
        CrossingSearch search = new CrossingSearch(trace, 3, true, new Window(1_500_000, 15_000_000), 0.05, EVERY_US);
        Progress progress = search.advance(Long.MAX_VALUE, true);
        assertThat(progress).isIn(Progress.NEVER, Progress.HOVERED, Progress.BEYOND_BEFORE);
    }

    private static LevelCrossing found(Trace trace, double level) {
        CrossingSearch search = new CrossingSearch(trace, level, true, WHOLE, 0, EVERY_US);
        assertThat(search.advance(Long.MAX_VALUE, true)).isEqualTo(Progress.FOUND);
        return search.found().orElseThrow();
    }
}
