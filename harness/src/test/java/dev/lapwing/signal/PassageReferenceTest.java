package dev.lapwing.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/**
 * Crossings of a signal that bends between two samples.
 *
 * <p>Source: closed form. A fall that begins at T with slope −b is at p − d at T + d/b; one that decays from p with
 * time constant τ is at p − d at T + τ·ln(p/(p − d)).
 */
class PassageReferenceTest {
    private static final double FALL = 40;
    private static final long EVERY_US = 100_000;

    /** Wherever the samples lie: the time is right on average, and within what is said of it each time. */
    @Test
    void aFallThatBeginsBetweenTwoSamplesIsToldWithoutBias() {
        SplittableRandom random = new SplittableRandom(5);
        double sum = 0;
        int count = 400;
        for (int k = 0; k < count; k++) {
            double begin = 1 + 0.1 * random.nextDouble();
            Trace trace = Traces.of(40, EVERY_US, t -> 70 - FALL * Math.max(0, t - begin));
            double off = crossing(trace, 69).seconds() - (begin + 1 / FALL);
            assertThat(Math.abs(off)).isLessThanOrEqualTo(crossing(trace, 69).curvature() + 1e-6);
            sum += off / count;
        }
        assertThat(sum).isCloseTo(0, within(0.006));
    }

    /** The fall is steepest between the two samples about its beginning, and less steep after. */
    @Test
    void aDecayThatBeginsBetweenTwoSamplesIsFollowedBackToItsBeginning() {
        SplittableRandom random = new SplittableRandom(7);
        for (int k = 0; k < 400; k++) {
            double begin = 1 + 0.1 * random.nextDouble();
            Trace trace = Traces.of(40, EVERY_US, t -> 70 * Math.exp(-Math.max(0, t - begin) / 0.15));
            double at = begin + 0.15 * Math.log(70.0 / 69);
            assertThat(crossing(trace, 69).seconds()).isCloseTo(at, within(1e-6));
        }
    }

    @Test
    void aJumpAtAnyTimeBetweenTwoSamplesIsToldWithoutBias() {
        SplittableRandom random = new SplittableRandom(9);
        double sum = 0;
        int count = 400;
        for (int k = 0; k < count; k++) {
            double jump = 1 + 0.1 * random.nextDouble();
            double off = crossing(Traces.of(40, EVERY_US, t -> t < jump ? 70 : 30), 69)
                            .seconds()
                    - jump;
            sum += off / count;
        }
        assertThat(sum).isCloseTo(0, within(0.003));
    }

    @Test
    void aStraightFallIsToldByTheChord() {
        Trace trace = Traces.of(40, EVERY_US, t -> 70 - FALL * Math.max(0, t - 0.5));
        assertThat(crossing(trace, 48).seconds()).isCloseTo(0.5 + 22 / FALL, within(1e-9));
    }

    private static LevelCrossing crossing(Trace trace, double level) {
        CrossingSearch search = new CrossingSearch(trace, level, false, new Window(0, 4_000_000), 0.01, EVERY_US);
        search.advance(4_000_000, true);
        return search.found().orElseThrow();
    }
}
