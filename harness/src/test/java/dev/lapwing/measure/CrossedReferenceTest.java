package dev.lapwing.measure;

import static dev.lapwing.measure.HandMade.PSI;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lapwing.finding.Limit;
import dev.lapwing.measure.Measurement.Measured;
import dev.lapwing.measure.Measurement.NotMeasurable;
import dev.lapwing.naming.Keys;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import dev.lapwing.plan.Course.ExpectationWindow;
import dev.lapwing.plan.PlannedExpectation;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.sequence.ResponseTerm;
import dev.lapwing.signal.GrowingTrace;
import dev.lapwing.signal.Trace;
import dev.lapwing.signal.Traces;
import dev.lapwing.uncertainty.Estimate;
import dev.lapwing.uncertainty.Instrument;
import dev.lapwing.uncertainty.Propagation;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;

/**
 * Times of crossings where the signal bends within the doubt of the level, against closed forms.
 *
 * <p>Source: closed form. A parabola with its top of P at T, p = P − a·(T − t)², is at a level L − e at T − √((P − L +
 * e)/a), so that an error e of the reading moves the crossing there; the distribution of the time follows from that of
 * e.
 */
class CrossedReferenceTest {
    private static final Signal CYLINDER = Keys.signal("brake-cylinder@1").orElseThrow();
    private static final Limit TIME = Limits.atMost(Dimension.TIME, 3);
    private static final double CALIBRATION = 0.1;
    private static final double NOISE = 1e-3;
    private static final double TOP = 40;

    /** From 0 psi at 1 s, where the stimulus is, to its top 2 s later. */
    private static double parabola(double t) {
        return t < 1 ? 0 : TOP - 10 * (t - 3) * (t - 3);
    }

    /** Time after the stimulus at which the parabola is so far below its top. */
    private static double timeOf(double below) {
        return 2 - Math.sqrt(below / 10);
    }

    @Test
    void nearATopTheIntervalIsThatOfTheParabola() {
        Estimate time = measured(run(CrossedReferenceTest::parabola, 150), above(TOP - 0.3, TIME))
                .estimate();
        Propagation drawn = time.propagated().orElseThrow();
        assertThat(time.value()).isCloseTo(timeOf(0.3), within(1e-3));
        assertThat(time.value() + time.above()).isCloseTo(timeOf(0.3 - 2 * CALIBRATION), within(6e-3));
        assertThat(time.value() - time.below()).isCloseTo(timeOf(0.3 + 2 * CALIBRATION), within(2e-3));
        assertThat(time.above()).isGreaterThan(1.3 * time.below());
        // Normal beyond three standard deviations: 0.13 %; so near the top no slope is to be told either.
        assertThat(drawn.never()).isBetween(0.001, 0.006);
        assertThat(drawn.trials()).isGreaterThanOrEqualTo(20_000);
    }

    @Test
    void theIntervalHoldsTheTruthAsOftenAsItSays() {
        // The true parabola is at the level at that time whatever the transducer reads, and 95.45 % of all errors lie
        // within ±2u; slopes are not known to the last tenth.
        for (double error = -1.75; error < 2; error += 0.35) {
            Estimate time =
                    measured(offBy(error * CALIBRATION), above(TOP - 0.5, TIME)).estimate();
            assertThat(time.covers(timeOf(0.5))).as("error of %s u", error).isTrue();
        }
        for (double error : new double[] {-2.4, 2.4}) {
            Estimate time =
                    measured(offBy(error * CALIBRATION), above(TOP - 0.5, TIME)).estimate();
            assertThat(time.covers(timeOf(0.5))).as("error of %s u", error).isFalse();
        }
    }

    @Test
    void farFromATopNothingIsDrawn() {
        Estimate time = measured(run(CrossedReferenceTest::parabola, 150), above(20, TIME))
                .estimate();
        assertThat(time.propagated()).isEmpty();
    }

    @Test
    void whatMayNotHaveReachedTheLevelHasNoTime() {
        Measurement found = measure(run(CrossedReferenceTest::parabola, 150), above(TOP - 0.12, TIME));
        NotMeasurable not = (NotMeasurable) found;
        assertThat(not.reason()).contains("by so little that with a probability of 1");
        assertThat(not.mend()).contains("steeper part");
    }

    @Test
    void whatWasTooLateInAnyCaseIsStillTooLate() {
        Limit soon = Limits.atMost(Dimension.TIME, 1);
        Measured late = measured(run(CrossedReferenceTest::parabola, 150), above(TOP - 0.12, soon));
        assertThat(late.quantity()).startsWith("least time");
        assertThat(late.estimate().value()).isCloseTo(timeOf(0.12 + 2 * CALIBRATION), within(3e-3));
        assertThat(soon.excludes(late.estimate())).isTrue();
    }

    @Test
    void aTransducerThatEndsThereAsksForAWiderOne() {
        DoubleUnaryOperator clipped = t -> t < 1 ? 0 : Math.min(60, 20 * (t - 1));
        Measurement found = measure(run(clipped, TOP), above(TOP - 0.1, TIME));
        assertThat(((NotMeasurable) found).mend()).contains("range goes further");
    }

    /** Its first top, 0.1 psi below the level, may have reached it; the second surely does. */
    @Test
    void anEarlierTopThatMayHaveReachedItIsInTheInterval() {
        DoubleUnaryOperator two = t -> t < 1 ? 0 : t < 3.5 ? parabola(t) : parabola(3.5) + 20 * Math.max(0, t - 5);
        Limit late = Limits.atLeast(Dimension.TIME, 3);
        Estimate time = measured(run(two, 150), above(TOP + 0.1, late)).estimate();
        assertThat(time.value()).isCloseTo(4.13, within(0.01));
        assertThat(time.value() - time.below()).isBetween(1.8, 2.1);
        // 84.13 %, and those in which it stayed beyond the level for less than 20 ms, which is not counted.
        assertThat(late.conformity(time).probability()).isBetween(0.835, 0.88);
        assertThat(late.holds(time)).isFalse();
        assertThat(late.excludes(time)).isFalse();
    }

    /**
     * Source: closed form. A plateau of half a second 2.5 standard uncertainties below the level is met with 0.62 %,
     * Φ(−2.5): too seldom for the interval of 95.45 %, and still four times what the slope alone makes of u. With
     * σ = 10 ms, p = Φ(−2.5) and d = 0.5 s: u² = σ² + p·(1 − p)·d² + 2·d·σ·φ(2.5).
     */
    @Test
    void aPlateauBeyondTheIntervalIsInTheStandardUncertainty() {
        DoubleUnaryOperator held = t -> 10 * (Math.min(t, 2.975) - 1 + Math.max(0, t - 3.475));
        Estimate time = measured(run(t -> Math.max(0, held.applyAsDouble(t)), 150), above(20, TIME))
                .estimate();
        assertThat(time.value()).isCloseTo(2.5, within(1e-3));
        assertThat(time.expanded()).isCloseTo(0.02, within(2e-3));
        assertThat(time.standardUncertainty()).isCloseTo(0.0427, within(0.003));
    }

    /** Source: closed form. 1 − e^(−t/τ) is at its share s at −τ·ln(1 − s), the later the flatter. */
    @Test
    void aTimeToNearlyAllOfAFillIsSkewed() {
        double tau = 0.2;
        DoubleUnaryOperator fill = t -> t < 1 ? 0 : 40 * (1 - Math.exp(-(t - 1) / tau));
        SplittableRandom random = new SplittableRandom(4);
        Trace trace = Traces.noisy(9000, 1000, t -> PSI * fill.applyAsDouble(t), 0.005 * PSI, random);
        HandMade run = new HandMade(9, 1).channel(CYLINDER, trace, instrument(0.005, 0.1), -10 * PSI, 150 * PSI);
        Check.Response check = new Check.Response(
                CYLINDER,
                ResponseTerm.TIME_TO_SHARE,
                0.99,
                new Check.States(OptionalDouble.of(0), OptionalDouble.of(40 * PSI), false, 0.5),
                5,
                1,
                TIME);
        Estimate time = measured(run, check).estimate();
        assertThat(time.propagated()).isPresent();
        assertThat(time.above()).isGreaterThan(time.below());
        assertThat(time.covers(-tau * Math.log(0.01))).isTrue();
    }

    /** Source: closed form. What is left after watching ended because the level was reached is a straight line. */
    @Test
    void whatWasNotWatchedAnyMoreIsNoDoubt() {
        DoubleUnaryOperator ramp = t -> t < 1 ? 0 : Math.min(20.05, 10 * (t - 1));
        HandMade run = run(ramp, 150);
        Check.Crossing check = above(20, TIME);
        Measurement whole = measure(run, check);
        Measurement ended = measure(run, check, 3_003_000);

        assertThat(whole).isInstanceOf(NotMeasurable.class);
        Estimate time = ((Measured) ended).estimate();
        assertThat(time.value()).isCloseTo(2, within(1e-3));
        assertThat(time.propagated()).isEmpty();
        assertThat(time.standardUncertainty()).isCloseTo(CALIBRATION / 10, within(5e-4));
    }

    /** At 20 psi the parabola rises by 28 psi/s, past 20.5 psi within 18 ms; near its top it never comes so far. */
    @Test
    void aCrossingIsWatchedUntilItIsPastWhatTheLevelMayBeOff() {
        HandMade run = run(CrossedReferenceTest::parabola, 150);
        assertThat(decided(run, above(20, TIME))).isBetween(1 + timeOf(20) + 0.018, 1 + timeOf(20) + 0.08);
        assertThat(decided(run, above(TOP - 0.3, TIME))).isBetween(6.0, 6.1);
    }

    private static double decided(HandMade run, Check check) {
        PlannedExpectation asked = new PlannedExpectation("x", "x", "t.yaml:1:1", check);
        double now = 1;
        while (!CheckWatch.of(asked, 1_000_000, 0, run.until(now)).decided(Math.round(now * 1e6))) {
            now += 0.01;
        }
        return now;
    }

    @Test
    void theSameRecordIsDrawnAlike() {
        Check check = above(TOP - 0.3, TIME);
        assertThat(measure(run(CrossedReferenceTest::parabola, 150), check))
                .isEqualTo(measure(run(CrossedReferenceTest::parabola, 150), check));
    }

    private static HandMade offBy(double error) {
        return run(t -> parabola(t) + error, 150);
    }

    private static HandMade run(DoubleUnaryOperator psi, double greatest) {
        SplittableRandom random = new SplittableRandom(1);
        Trace noisy = Traces.noisy(8000, 1000, t -> PSI * psi.applyAsDouble(t), NOISE * PSI, random);
        GrowingTrace trace = new GrowingTrace();
        for (int i = 0; i < noisy.size(); i++) {
            trace.append(noisy.timeUs(i), Math.min(greatest * PSI, noisy.value(i)));
        }
        return new HandMade(8, 1).channel(CYLINDER, trace, instrument(NOISE, CALIBRATION), -10 * PSI, greatest * PSI);
    }

    private static Instrument instrument(double noise, double calibration) {
        return new Instrument("P1", calibration * PSI, 0, 1e-4 * PSI, noise * PSI, 20, true, "bench", 20e-6);
    }

    private static Check.Crossing above(double level, Limit limit) {
        return new Check.Crossing(CYLINDER, true, level * PSI, 5, limit);
    }

    private static Measured measured(HandMade run, Check check) {
        Measurement found = measure(run, check);
        assertThat(found).isInstanceOf(Measured.class);
        return (Measured) found;
    }

    private static Measurement measure(HandMade run, Check check) {
        return measure(run, check, 8_000_000);
    }

    private static Measurement measure(HandMade run, Check check, long closedUs) {
        return new Measuring(run, new Words(PressureDisplay.PSI))
                .measure(check, new ExpectationWindow("x", 1_000_000, 1_000_000, closedUs, true), 100, Map.of());
    }
}
