package dev.lapwing.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Crossings against closed forms; nothing of the harness is used to get them. Source: terms of IEEE Std 181-2011 (10,
 * 50 and 90 % reference levels, transition duration), values by algebra.
 */
class CrossingReferenceTest {
    private static final long EVERY_US = 1000;

    /** p(t) = P·(1 − e^(−t/τ)) passes 95 % at t = τ·ln 20. A chord errs by at most h²/8·|p''/p'| = h²/(8τ). */
    @ParameterizedTest
    @ValueSource(doubles = {0.1, 0.8, 1.33523})
    void aFirstOrderFillPasses95PercentAtTauLn20(double tau) {
        Trace fill = Traces.of(8000, EVERY_US, t -> 3.8 * (1 - StrictMath.exp(-t / tau)));
        LevelCrossing found = crossing(fill, 0.95 * 3.8, true);
        double h = EVERY_US * 1e-6;
        assertThat(found.seconds()).isCloseTo(tau * StrictMath.log(20), within(h * h / (8 * tau)));
        assertThat(found.curvature()).isLessThan(h * h / tau).isGreaterThan(0);
    }

    /** 10 to 90 % of a first-order rise takes ln 9·τ = 2.197225·τ. */
    @Test
    void theTransitionDurationOfAFirstOrderRiseIsTauLn9() {
        double tau = 0.5;
        Trace rise = Traces.of(8000, EVERY_US, t -> 1 - StrictMath.exp(-t / tau));
        double duration =
                crossing(rise, 0.9, true).seconds() - crossing(rise, 0.1, true).seconds();
        assertThat(duration).isCloseTo(2.197225 * tau, within(2e-6));
    }

    /**
     * A ramp 0 to 1 in 1 s: 10 to 90 % takes 0.8 s, the middle lies at 0.5 s. A chord of a straight line errs by
     * nothing.
     */
    @Test
    void theTransitionDurationOfARampIsFourFifthsOfIt() {
        // Samples never fall on the levels asked for.
        Trace ramp = Traces.of(1500, 7_000, t -> Math.min(1, t));
        double ten = crossing(ramp, 0.1, true).seconds();
        double ninety = crossing(ramp, 0.9, true).seconds();
        assertThat(ninety - ten).isCloseTo(0.8, within(1e-12));
        assertThat(crossing(ramp, 0.5, true).seconds()).isCloseTo(0.5, within(1e-12));
    }

    /** An exponential discharge passes 1/e after τ; the slope there is −P/(e·τ). */
    @Test
    void anExponentialDischargePassesOneOverEAtTau() {
        double tau = 1.7;
        Trace fall = Traces.of(5000, EVERY_US, t -> 4.83 * StrictMath.exp(-t / tau));
        LevelCrossing found = crossing(fall, 4.83 / Math.E, false);
        assertThat(found.seconds()).isCloseTo(tau, within(1e-6));
        assertThat(found.slope()).isCloseTo(-4.83 / (Math.E * tau), within(1e-3));
    }

    private static LevelCrossing crossing(Trace trace, double level, boolean rising) {
        CrossingSearch search = new CrossingSearch(trace, level, rising, new Window(0, 10_000_000), 0, EVERY_US);
        assertThat(search.advance(Long.MAX_VALUE, true)).isEqualTo(CrossingSearch.Progress.FOUND);
        return search.found().orElseThrow();
    }
}
