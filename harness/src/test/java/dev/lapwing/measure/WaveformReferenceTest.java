package dev.lapwing.measure;

import static dev.lapwing.measure.HandMade.PSI;
import static dev.lapwing.measure.Waveforms.SHARE;
import static dev.lapwing.measure.Waveforms.TIME;
import static dev.lapwing.measure.Waveforms.exact;
import static dev.lapwing.measure.Waveforms.fill;
import static dev.lapwing.measure.Waveforms.secondOrder;
import static dev.lapwing.measure.Waveforms.term;
import static dev.lapwing.measure.Waveforms.value;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lapwing.finding.Limit;
import dev.lapwing.plan.Check;
import dev.lapwing.sequence.ResponseTerm;
import dev.lapwing.uncertainty.Estimate;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The terms of IEEE Std 181-2011 (from memory) on an exponential, a ramp and a damped sine against closed forms;
 * nothing of the harness is used to get these. Where a closed form cannot be solved for the time, a stretch of it is
 * halved until it holds nothing but the crossing.
 */
class WaveformReferenceTest {
    /** Source: closed form; P·(1 − e^(−t/τ)) reaches the share s at −τ·ln(1 − s). From 9 s on it lacks e^(−9/τ). */
    @ParameterizedTest
    @ValueSource(doubles = {0.1, 0.5, 0.9, 0.95})
    void timesToSharesOfAFirstOrderFill(double share) {
        Estimate time = value(exact(t -> 50 * fill(t, 0.8)), term(ResponseTerm.TIME_TO_SHARE, share, TIME));
        assertThat(time.value()).isCloseTo(-0.8 * StrictMath.log(1 - share), within(2e-4));
    }

    /** Source: IEEE Std 181-2011, transition duration 10 % to 90 %; of a first-order rise τ·ln 9. */
    @ParameterizedTest
    @ValueSource(doubles = {0.3, 0.8})
    void theTransitionDurationOfAFirstOrderRiseIsTauLn9(double tau) {
        Check check = term(ResponseTerm.TRANSITION_DURATION, 0, TIME);
        assertThat(value(exact(t -> 10 + 40 * fill(t, tau)), check).value())
                .isCloseTo(tau * StrictMath.log(9), within(1e-4));
        assertThat(value(exact(t -> 50 - 40 * fill(t, tau)), check).value())
                .isCloseTo(tau * StrictMath.log(9), within(1e-4));
    }

    /** Source: as above; of a ramp of duration T four fifths of T. */
    @Test
    void theTransitionDurationOfARampIsFourFifthsOfIt() {
        Check check = term(ResponseTerm.TRANSITION_DURATION, 0, TIME);
        assertThat(value(exact(t -> 50 * Math.max(0, Math.min(1, t / 1.5))), check)
                        .value())
                .isCloseTo(1.2, within(1e-6));
    }

    /**
     * Source: IEEE Std 181-2011, overshoot in per cent of the amplitude; of a second-order step exp(−πζ/√(1−ζ²)), the
     * following trough is short of the last state by the square of that. The mean over 20 ms takes (ωw)²/24 off a
     * peak, 0.11 % at these rates.
     */
    @ParameterizedTest
    @ValueSource(doubles = {0.2, 0.4, 0.6})
    void theOvershootOfADampedSineIsItsClosedForm(double damping) {
        double due = StrictMath.exp(-Math.PI * damping / StrictMath.sqrt(1 - damping * damping));
        HandMade run = exact(t -> 50 * secondOrder(t, damping, 8));
        assertThat(value(run, term(ResponseTerm.OVERSHOOT, 0, SHARE)).value()).isCloseTo(due, within(1e-3));
        assertThat(value(run, term(ResponseTerm.UNDERSHOOT, 0, SHARE)).value()).isCloseTo(due * due, within(1e-3));
        Limit psi = Limits.psi(0, 30);
        assertThat(value(run, term(ResponseTerm.OVERSHOOT, 0, psi)).value() / PSI)
                .isCloseTo(50 * due, within(0.05));
        HandMade down = exact(t -> 50 - 50 * secondOrder(t, damping, 8));
        assertThat(value(down, term(ResponseTerm.OVERSHOOT, 0, SHARE)).value()).isCloseTo(due, within(1e-3));
    }

    /** Source: closed form; a first-order fill is within b for good from τ·ln(1/b) on, half way at τ·ln 2. */
    @ParameterizedTest
    @ValueSource(doubles = {0.02, 0.05, 0.1})
    void theSettlingDurationOfAFirstOrderFillIsItsClosedForm(double band) {
        Estimate time = value(exact(t -> 50 * fill(t, 0.6)), term(ResponseTerm.SETTLING_DURATION, band, TIME));
        assertThat(time.value()).isCloseTo(0.6 * StrictMath.log(0.5 / band), within(2e-3));
    }

    /** Source: closed form; a ramp of duration T reaches the share s at s·T and is within b for good from (1 − b)·T. */
    @ParameterizedTest
    @ValueSource(doubles = {0.1, 0.5, 0.9, 0.95})
    void timesToSharesOfARampAreSharesOfIt(double share) {
        HandMade ramp = exact(t -> 50 * Math.max(0, Math.min(1, t / 1.5)));
        assertThat(value(ramp, term(ResponseTerm.TIME_TO_SHARE, share, TIME)).value())
                .isCloseTo(1.5 * share, within(1e-6));
        Estimate settled = value(ramp, term(ResponseTerm.SETTLING_DURATION, 0.05, TIME));
        assertThat(settled.value()).isCloseTo(1.5 * (0.95 - 0.5), within(1e-3));
    }

    /** Source: as the class says; a damped sine first reaches its shares before its first peak, at π/(ω·√(1 − ζ²)). */
    @ParameterizedTest
    @ValueSource(doubles = {0.2, 0.4, 0.6})
    void timesToSharesOfADampedSineAreThoseOfItsClosedForm(double damping) {
        DoubleUnaryOperator step = t -> secondOrder(t, damping, 8);
        HandMade run = exact(t -> 50 * step.applyAsDouble(t));
        double peak = Math.PI / (8 * StrictMath.sqrt(1 - damping * damping));
        for (double share : new double[] {0.1, 0.5, 0.9}) {
            assertThat(value(run, term(ResponseTerm.TIME_TO_SHARE, share, TIME)).value())
                    .as("share %s", share)
                    .isCloseTo(crossing(step, share, 0, peak), within(2e-4));
        }
        double due = crossing(step, 0.9, 0, peak) - crossing(step, 0.1, 0, peak);
        assertThat(value(run, term(ResponseTerm.TRANSITION_DURATION, 0, TIME)).value())
                .isCloseTo(due, within(2e-4));
    }

    /**
     * Source: as the class says; peaks follow each other by π/(ω·√(1 − ζ²)), and the last one outside of the band is
     * followed by the crossing into it for good. Means over 20 ms are looked at, as the page on it says.
     */
    @ParameterizedTest
    @ValueSource(doubles = {0.2, 0.4, 0.6})
    void theSettlingDurationOfADampedSineIsThatOfItsClosedForm(double damping) {
        DoubleUnaryOperator step = t -> secondOrder(t, damping, 8);
        double half = Math.PI / (8 * StrictMath.sqrt(1 - damping * damping));
        double band = 0.07;
        int outside = 1;
        while (Math.abs(step.applyAsDouble((outside + 1) * half) - 1) > band) {
            outside++;
        }
        DoubleUnaryOperator apart = t -> Math.abs(step.applyAsDouble(t) - 1);
        double into = crossing(apart, band, outside * half, outside * half + half / 2);
        Estimate settled =
                value(exact(t -> 50 * step.applyAsDouble(t)), term(ResponseTerm.SETTLING_DURATION, band, TIME));
        assertThat(settled.value()).isCloseTo(into - crossing(step, 0.5, 0, half), within(3e-3));
    }

    /** Where a function that only rises, or only falls, between two times passes a level. */
    private static double crossing(DoubleUnaryOperator of, double level, double from, double to) {
        boolean rises = of.applyAsDouble(to) > of.applyAsDouble(from);
        double low = from;
        double high = to;
        for (int i = 0; i < 60; i++) {
            double middle = low + (high - low) / 2;
            boolean beyond = of.applyAsDouble(middle) > level == rises;
            low = beyond ? low : middle;
            high = beyond ? middle : high;
        }
        return low;
    }
}
