package dev.lapwing.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Greatest slopes against closed forms, and what noise makes of the greatest of many against published tables. */
class SteepestSlopeReferenceTest {
    private static final Window WHOLE = new Window(0, 4_000_000);
    private static final long WIDTH_US = 500_000;

    /**
     * Source: algebra. A filling 20·τ·(1 − e^(−(t − t0)/τ)) is steepest where the first third ends s after t0, with
     * e^(−s/τ) = 1/(1 + e^(−a)·(1 − e^(−a))) and a the third over τ; the means follow by integration.
     */
    @ParameterizedTest
    @ValueSource(longs = {200, 333, 1000, 3700, 10_000, 20_000})
    void theSlopeOfAFillingDoesNotHangOnWhereSamplesLie(long everyUs) {
        double tau = 1.5;
        double third = WIDTH_US * 1e-6 / 3;
        double decay = StrictMath.exp(-third / tau);
        double x = 1 / (1 + decay * (1 - decay));
        double s = -tau * StrictMath.log(x);
        double first = (s - tau * (1 - x)) / third;
        double last = 1 - x * decay * (1 - decay) * tau / third;
        double due = 20 * tau * (last - first) / (2 * third);
        for (double t0 = 1; t0 < 1.02; t0 += 0.0037) {
            double begins = t0;
            DoubleUnaryOperator filling = t -> t < begins ? 0 : 20 * tau * (1 - StrictMath.exp(-(t - begins) / tau));
            Trace trace = Traces.of((int) (4_000_000 / everyUs), everyUs, filling);
            SteepestSlope found = steepest(trace, 0).orElseThrow();
            assertThat(found.slope()).isCloseTo(due, within(1e-3 * due));
            assertThat(found.fromNoise()).isZero();
        }
    }

    /** Source: Bartlett 1949; on a straight line the line of thirds is that line, wherever a spike lies. */
    @Test
    void aSpikeMovesNothing() {
        Trace spiked = Traces.of(4000, 1000, t -> 3 * t + (Math.abs(t - 1.7) < 0.03 ? 40 : 0));
        assertThat(steepest(spiked, 0.01).orElseThrow().slope()).isCloseTo(3, within(0.02));
    }

    @Test
    void tooFewSamplesInAThirdTellNothing() {
        Trace sparse = Traces.of(100, 34_000, t -> t);
        assertThat(steepest(sparse, 0)).isEmpty();
    }

    /**
     * Source: D. Teichroew, Tables of Expected Values of Order Statistics, Annals of Mathematical Statistics 27 (1956),
     * as H. A. David, Order Statistics, prints them (from memory): the greatest of n normal deviates. Where all places
     * are alike that is what noise adds, and the most that is allowed for.
     */
    @ParameterizedTest
    @CsvSource({"2, 0.56419", "5, 1.16296", "10, 1.53875", "20, 1.86748"})
    void whatNoiseAddsToTheGreatestOfManyAlikeIsWithinWhatIsAllowedFor(int n, double due) {
        SplittableRandom random = new SplittableRandom(n);
        double most = 0;
        double middle = 0;
        int runs = 2000;
        for (int i = 0; i < runs; i++) {
            double[] curve = normals(n, random);
            SplittableRandom draws = random.split();
            Luck luck = Luck.of(curve, 1, () -> normals(n, draws));
            most += (luck.excess() + luck.bound()) / runs;
            middle += luck.excess() / runs;
        }
        assertThat(most).isCloseTo(due, within(0.05));
        assertThat(middle).isCloseTo(due / Math.sqrt(2), within(0.05));
    }

    /** One place that stands out owes noise nothing on average, however much of it there is beside. */
    @Test
    void aPlaceThatStandsOutIsNotLucky() {
        double[] curve = new double[50];
        curve[20] = 12;
        SplittableRandom draws = new SplittableRandom(3);
        Luck luck = Luck.of(curve, 1, () -> normals(curve.length, draws));
        assertThat(luck.excess()).isCloseTo(0, within(1e-9));
    }

    /** Stated doubts hold: errors over a bent filling with noise, in stated standard uncertainties. */
    @Test
    void noiseNeitherRaisesTheGreatestNorHidesInIt() {
        DoubleUnaryOperator bent = t -> 10 * t + 4 * StrictMath.sin(1.1 * t);
        double due = steepest(Traces.of(4000, 1000, bent), 0).orElseThrow().slope();
        SplittableRandom random = new SplittableRandom(11);
        int runs = 300;
        double sum = 0;
        double squares = 0;
        for (int i = 0; i < runs; i++) {
            Trace trace = Traces.noisy(800, 5000, bent, 0.2, random);
            SteepestSlope found = steepest(trace, 0.2).orElseThrow();
            double u = StrictMath.hypot(found.fromNoise(), found.luck() / Math.sqrt(3));
            double ratio = (found.slope() - due) / u;
            sum += ratio / runs;
            squares += ratio * ratio / runs;
        }
        assertThat(sum).isCloseTo(0, within(0.25));
        assertThat(Math.sqrt(squares - sum * sum)).isBetween(0.6, 1.15);
    }

    private static Optional<SteepestSlope> steepest(Trace trace, double noise) {
        SplittableRandom random = new SplittableRandom(5);
        return SteepestSlope.of(trace, true, WHOLE, WIDTH_US, noise, () -> Traces.normal(random));
    }

    private static double[] normals(int n, SplittableRandom random) {
        double[] values = new double[n];
        Arrays.setAll(values, i -> Traces.normal(random));
        return values;
    }
}
