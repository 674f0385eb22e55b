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
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.sequence.ResponseTerm;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Estimate;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;

/** Coming back into a band of 1 psi about 20 psi, remembered exactly, with a transducer good to 0.1 psi. */
class EntriesTest {
    private static final String KEY = "brake-cylinder@1";
    private static final Signal CYLINDER = Keys.signal(KEY).orElseThrow();

    @Test
    void whatRampsInHasItsDoubtFromTheSlope() {
        Estimate time = recovery(t -> t < 2 ? 20 : t < 4 ? 15 : Math.min(20, 15 + 5 * (t - 4)));
        assertThat(time.value()).isCloseTo(3.8, within(0.02));
        assertThat(time.standardUncertainty()).isBetween(0.018, 0.03);
    }

    @Test
    void whatJumpsInCameWithinTheWidthOfTheMean() {
        Estimate time = recovery(t -> t < 2 || t > 4 ? 20 : 15);
        assertThat(time.value()).isCloseTo(3, within(0.02));
        assertThat(time.standardUncertainty()).isLessThan(0.02);
    }

    /** At 2 mpsi/s nobody could say within seconds when it came in. */
    @Test
    void whatCreepsInTellsNoTimeWithinSeconds() {
        Estimate time = recovery(t -> t < 2 ? 20 : t < 2.5 ? 15 : 18.99 + 0.002 * (t - 2.5));
        assertThat(time.standardUncertainty()).isGreaterThan(1);
    }

    /** At 4 s it swings back to 0.1 psi inside the edge, half of what that may be off: it may have been out again. */
    @Test
    void aSwingThatNearlyLeavesTheBandAgainIsADoubtOfTheTime() {
        DoubleUnaryOperator near = t -> t < 2 ? 20 : t < 3 ? 15 : t > 4 && t < 4.5 ? 19.1 : 20;
        Estimate time = recovery(near);
        assertThat(time.value()).isCloseTo(2, within(0.02));
        assertThat(component(time, "level close by")).isCloseTo(0.75, within(0.03));
        Estimate clear = recovery(t -> t < 2 ? 20 : t < 3 ? 15 : t > 4 && t < 4.5 ? 19.5 : 20);
        assertThat(component(clear, "level close by")).isZero();
    }

    /** About 148 psi, in a band of 4 psi, with a range that ends at 150 psi: 160 psi for 100 ms reads as if inside. */
    @Test
    void whatTheEndOfTheRangeCutsOffMayHaveLeftTheBand() {
        DoubleUnaryOperator swing = t -> t > 4 && t < 4.1 ? 160 : 148;
        assertCutOff(within150(swing, recovery(4)));
        assertCutOff(within150(t -> t > 2 && t < 3 ? 140 : swing.applyAsDouble(t), recovery(4)));
        assertCutOff(within150(swing, departure(Limits.psi(-5, 5))));
        Check settling = Waveforms.term(ResponseTerm.SETTLING_DURATION, 0.1, Waveforms.TIME);
        HandMade run = new HandMade(12, 1).pressure(KEY, t -> t < 2 ? 100 : swing.applyAsDouble(t));
        assertCutOff(Waveforms.measure(run.within(KEY, 150), settling, 12));
    }

    /** What is nearest the limit was 3 psi below; what was cut off may have been further above. */
    @Test
    void eitherEndOfTheRangeMayCutOffWhatTheLimitIsAbout() {
        DoubleUnaryOperator both = t -> t > 4 && t < 4.1 ? 160 : t > 5 && t < 6 ? 145 : 148;
        assertCutOff(within150(both, departure(Limits.psi(-5, 9))));
        Limit level = Limits.psi(143, 158);
        assertCutOff(within150(both, new Check.Stays(CYLINDER, OptionalDouble.of(7), level)));
        assertThat(within150(both, departure(Limits.atLeast(Dimension.PRESSURE, -5 * PSI))))
                .isInstanceOf(Measured.class);
    }

    @Test
    void whatWasCutOffBeforeItCameInOrPlainlyOutsideTheBandHidesNothing() {
        DoubleUnaryOperator before = t -> t > 2 && t < 2.1 ? 160 : t > 2 && t < 3 ? 140 : 148;
        assertThat(time(within150(before, recovery(4))).value()).isCloseTo(2, within(0.02));
        DoubleUnaryOperator seen = t -> t > 4 && t < 4.1 ? 160 : 148;
        assertThat(time(within150(seen, recovery(1))).value()).isCloseTo(3.1, within(0.02));
    }

    @Test
    void whatCameBackTooLateStaysTooLateWhateverWasCutOff() {
        DoubleUnaryOperator late = t -> t > 2 && t < 7.5 ? 140 : t > 8 && t < 8.1 ? 160 : 148;
        assertThat(time(within150(late, recovery(4))).value()).isCloseTo(6.5, within(0.02));
    }

    private static Check recovery(double band) {
        return new Check.Recovery(CYLINDER, "before", band * PSI, 7, Limits.atMost(Dimension.TIME, 5));
    }

    private static Check departure(Limit limit) {
        return new Check.Departure(CYLINDER, "before", OptionalDouble.of(7), limit);
    }

    private static Estimate recovery(DoubleUnaryOperator psi) {
        return time(measure(new HandMade(9, 1).pressure(KEY, psi), recovery(1), 20));
    }

    private static Measurement within150(DoubleUnaryOperator psi, Check check) {
        return measure(new HandMade(9, 1).pressure(KEY, psi).within(KEY, 150), check, 148);
    }

    private static Measurement measure(HandMade run, Check check, double psi) {
        Estimate level = new Estimate(psi * PSI, Dimension.PRESSURE, List.of());
        return new Measuring(run, new Words(PressureDisplay.PSI))
                .measure(
                        check,
                        new ExpectationWindow("x", 1_000_000, 1_000_000, 9_000_000, true),
                        100,
                        Map.of("before", new Remembered(level, List.of())));
    }

    private static Estimate time(Measurement found) {
        assertThat(found).isInstanceOf(Measured.class);
        return ((Measured) found).estimate();
    }

    private static void assertCutOff(Measurement found) {
        assertThat(found)
                .isInstanceOfSatisfying(
                        NotMeasurable.class,
                        not -> assertThat(not.reason())
                                .contains("stood at the end of its transducer's range, 150 psi"));
    }

    private static double component(Estimate estimate, String source) {
        return estimate.components().stream()
                .filter(c -> c.source().equals(source))
                .mapToDouble(Component::standard)
                .sum();
    }
}
