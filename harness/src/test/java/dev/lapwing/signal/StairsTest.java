package dev.lapwing.signal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.SplittableRandom;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;

/** What waits on a step below a level, under noise, is not told to have passed it when a line through it all does. */
class StairsTest {
    private static final double NOISE = 0.3;
    private static final Window REGION = new Window(0, 1_600_000);

    /** Steps of 2 that begin every 0.8 s and last 0.1 s, from 0 at the middle of the region. */
    private static double stairs(double seconds) {
        double at = seconds / 0.8;
        double into = at - Math.floor(at);
        return 2 * (Math.floor(at) + Math.min(1, into * 8));
    }

    private static double off(DoubleUnaryOperator signal, DoubleUnaryOperator curve, double level, double atSeconds) {
        Trace trace = Traces.noisy(1_700, 1_000, t -> signal.applyAsDouble(t - 0.8), NOISE, new SplittableRandom(4));
        return new Stairs(trace, REGION, true, NOISE).off(curve, level, atSeconds);
    }

    @Test
    void aLevelAboveAStepIsPassedAtItsEnd() {
        // The step at 0 ends at 0 s; a line through all of it is at 0.1 half a step earlier.
        double off = off(StairsTest::stairs, x -> 2.5 * x + 1, 0.1, -0.36);
        assertThat(off).isBetween(0.36, 0.36 + 0.25);
    }

    @Test
    void whatRisesSmoothlyIsAsItsCurve() {
        assertThat(off(t -> 2.5 * t, x -> 2.5 * x, 0.1, 0.04)).isZero();
        assertThat(off(t -> 2.5 * t - t * t, x -> 2.5 * x - x * x, 0.1, 0.04)).isZero();
    }

    @Test
    void whatNoiseHidesIsNotClaimed() {
        assertThat(off(t -> 2.5 * t + 0.05 * Math.sin(9 * t), x -> 2.5 * x, 0.1, 0.04))
                .isZero();
    }
}
