package dev.lapwing.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;

/**
 * Change points against curves whose knee is known by construction; nothing of the harness is used to place it. Source:
 * closed forms. A first-order fall p·e^(−u/T) and its parabola part by u³/(6·T³) of p, which moves the knee of a fit to
 * its first tenth (u ≤ 0.105·T) by less than 2 ‰ of T.
 */
class OnsetReferenceTest {
    private static final long EVERY_US = 1000;
    private static final double KNEE = 0.2345;
    private static final double NOISE = 0.05;

    @Test
    void theKneeOfTwoStraightLinesIsFoundBetweenSamples() {
        assertThat(clean(t -> 70 - 30 * Math.max(0, t - KNEE), false).seconds()).isCloseTo(KNEE, within(1e-6));
        assertThat(clean(t -> 30 * Math.max(0, t - KNEE), true).seconds()).isCloseTo(KNEE, within(1e-6));
    }

    @Test
    void theKneeOfAFirstOrderFallIsFound() {
        for (double tau : new double[] {0.3, 0.8, 3}) {
            Onset found = clean(t -> 70 * StrictMath.exp(-Math.max(0, t - KNEE) / tau), false);
            assertThat(found.seconds()).isCloseTo(KNEE, within(2e-3 * tau));
        }
    }

    /** A start without a knee in its slope: y = c·u² is in the family of curves. */
    @Test
    void aSoftStartIsFound() {
        Onset found = clean(t -> 40 * Math.max(0, t - KNEE) * Math.max(0, t - KNEE), true);
        assertThat(found.seconds()).isCloseTo(KNEE, within(1e-4));
    }

    /** A threshold of five standard deviations is late by what the fall needs to reach it; the fit is not. */
    @Test
    void theStatedDoubtIsThatOfTheErrors() {
        spread(t -> 70 - 30 * Math.max(0, t - KNEE));
        spread(t -> 70 * StrictMath.exp(-Math.max(0, t - KNEE) / 0.8));
        spread(t -> 70 * StrictMath.exp(-Math.max(0, t - KNEE) / 3));
    }

    private static void spread(DoubleUnaryOperator truth) {
        int runs = 200;
        double sum = 0;
        double squares = 0;
        for (int seed = 0; seed < runs; seed++) {
            Trace trace =
                    Traces.noisy(6000, EVERY_US, t -> truth.applyAsDouble(t - 1), NOISE, new SplittableRandom(seed));
            Onset found = ((Onset.Found.At) find(trace, false, NOISE)).onset();
            double model = found.model() / Math.sqrt(3);
            double error = (found.seconds() - KNEE) / Math.hypot(found.fromNoise(), model);
            sum += error;
            squares += error * error;
        }
        double mean = sum / runs;
        double deviation = Math.sqrt((squares - runs * mean * mean) / (runs - 1));
        assertThat(mean).isCloseTo(0, within(0.3));
        assertThat(deviation).isBetween(0.8, 1.2);
    }

    @Test
    void whatDoesNotMoveHasNoOnset() {
        Trace flat = Traces.noisy(6000, EVERY_US, t -> 70, NOISE, new SplittableRandom(1));
        assertThat(find(flat, false, NOISE)).isInstanceOf(Onset.Found.Still.class);
    }

    @Test
    void whatMovedBeforeHasNoOnset() {
        Trace moving = Traces.noisy(6000, EVERY_US, t -> 70 - 5 * t, NOISE, new SplittableRandom(1));
        assertThat(find(moving, false, NOISE)).isInstanceOf(Onset.Found.Restless.class);
    }

    /** One second of rest before zero. */
    private static Onset clean(DoubleUnaryOperator truth, boolean rising) {
        Trace trace = Traces.of(6000, EVERY_US, t -> truth.applyAsDouble(t - 1));
        return ((Onset.Found.At) find(trace, rising, 0)).onset();
    }

    private static Onset.Found find(Trace trace, boolean rising, double noise) {
        return Onset.of(trace, rising, new Window(1_000_000, 5_900_000), 500_000, noise, 20_000);
    }
}
