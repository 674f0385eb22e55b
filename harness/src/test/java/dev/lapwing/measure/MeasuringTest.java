package dev.lapwing.measure;

import static dev.lapwing.measure.HandMade.PSI;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lapwing.finding.Limit;
import dev.lapwing.measure.Measurement.Measured;
import dev.lapwing.measure.Measurement.NeverHappened;
import dev.lapwing.measure.Measurement.NotMeasurable;
import dev.lapwing.naming.Keys;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import dev.lapwing.plan.Course.ExpectationWindow;
import dev.lapwing.plan.PlannedCondition;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.signal.GrowingTrace;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Estimate;
import dev.lapwing.uncertainty.Input;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;

class MeasuringTest {
    private static final Signal CYLINDER = Keys.signal("brake-cylinder@1").orElseThrow();
    private static final Signal REAR = Keys.signal("brake-cylinder@4").orElseThrow();
    private static final Signal.Wire HOLDING = new Signal.Wire("holding");
    private static final Limit TIME = Limits.atMost(Dimension.TIME, 3);
    private static final Limit BAND = Limits.psi(-1, 1);

    /** A fill that starts at 1 s with 20 psi/s passes 45 psi 2.25 s later. */
    private static double fill(double t) {
        return Math.max(0, Math.min(50, 20 * (t - 1)));
    }

    @Test
    void aTimeToALevelOwesItsDoubtToTheLevelByTheSlope() {
        HandMade run = new HandMade(8, 1).pressure("brake-cylinder@1", MeasuringTest::fill);
        Measured time = measured(run, new Check.Crossing(CYLINDER, true, 45 * PSI, 5, TIME));
        Estimate estimate = time.estimate();
        assertThat(estimate.dimension()).isEqualTo(Dimension.TIME);
        assertThat(estimate.value()).isCloseTo(2.25, within(2e-3));
        assertThat(component(estimate, "calibration/P-brake-cylinder@1")).isCloseTo(-0.1 / 20, within(3e-4));
        assertThat(component(estimate, "stimulus stamp")).isCloseTo(-100e-6 / Math.sqrt(3), within(1e-12));
        assertThat(component(estimate, "clock/bench")).isCloseTo(2.25 * 20e-6 / Math.sqrt(3), within(1e-7));
        assertThat(estimate.standardUncertainty()).isBetween(4.7e-3, 5.6e-3);
        assertThat(time.marks()).hasSize(1);
        assertThat(time.marks().get(0).value()).isEqualTo(45 * PSI);
    }

    @Test
    void whatNeverRisesSaysHowFarItGot() {
        HandMade run = new HandMade(8, 1).pressure("brake-cylinder@1", t -> Math.min(43, fill(t)));
        Measurement found = measure(run, new Check.Crossing(CYLINDER, true, 45 * PSI, 5, TIME));
        NeverHappened never = (NeverHappened) found;
        assertThat(never.reached().orElseThrow().value() / PSI).isCloseTo(43, within(0.1));
        assertThat(never.shortBy() / PSI).isCloseTo(2, within(0.1));
        assertThat(never.instead()).contains("45 psi").contains("5 s").contains("± ");
    }

    @Test
    void whatWasAboveBeforehandIsNotMeasured() {
        HandMade run = new HandMade(8, 1).pressure("brake-cylinder@1", t -> 50);
        reason(run, new Check.Crossing(CYLINDER, true, 45 * PSI, 5, TIME), "already before the stimulus");
    }

    @Test
    void lostSamplesOnTheWayToACrossingLeaveItUnmeasured() {
        HandMade run = new HandMade(8, 1)
                .pressure("brake-cylinder@1", MeasuringTest::fill)
                .lost("brake-cylinder@1", 2, 2.1);
        reason(run, new Check.Crossing(CYLINDER, true, 45 * PSI, 5, TIME), "lost for 100 ms");
        HandMade after = new HandMade(8, 1)
                .pressure("brake-cylinder@1", MeasuringTest::fill)
                .lost("brake-cylinder@1", 6, 6.1);
        measured(after, new Check.Crossing(CYLINDER, true, 45 * PSI, 5, TIME));
    }

    @Test
    void aTransducerAtTheEndOfItsRangeIsNotBelieved() {
        HandMade run = new HandMade(8, 1).pressure("brake-cylinder@1", t -> 150, 0);
        reason(run, settled(CYLINDER, 0, BAND), "end of its transducer's range");
    }

    @Test
    void aTransducerThatGivesOneCountIsNotBelieved() {
        HandMade run = new HandMade(8, 1).pressure("brake-cylinder@1", t -> 20, 0);
        reason(run, settled(CYLINDER, 0, BAND), "looks dead");
        reason(run, new Check.Crossing(CYLINDER, true, 45 * PSI, 5, TIME), "looks dead");
    }

    @Test
    void aTransducerThatDiesInTheMiddleOfAStretchIsNotBelieved() {
        HandMade run = new HandMade(8, 1).dead("brake-cylinder@1", t -> 20, 2.97, 20.5);
        reason(run, settled(CYLINDER, 0, BAND), "looks dead");
        HandMade later = new HandMade(8, 1).dead("brake-cylinder@1", t -> 20, 3.1, 20.5);
        measured(later, settled(CYLINDER, 0, BAND));
    }

    @Test
    void tooFewSamplesAreNotBelieved() {
        GrowingTrace thin = new GrowingTrace();
        for (int i = 0; i < 80; i++) {
            thin.append(i * 100_000L, 20 * PSI);
        }
        reason(new HandMade(8, 1).trace(CYLINDER, thin), settled(CYLINDER, 0, BAND), "samples of");
        reason(new HandMade(8, 1), settled(CYLINDER, 0, BAND), "reported nothing");
    }

    @Test
    void aLevelKeepsTheDoubtOfItsCalibrationWhole() {
        HandMade run = new HandMade(60, 1).pressure("brake-cylinder@1", t -> 25);
        Check.SettledLevel longest = new Check.SettledLevel(CYLINDER, 25 * PSI, 2, 50, Optional.empty(), BAND);
        Estimate estimate = measured(run, longest, 60).estimate();
        assertThat(estimate.value() / PSI).isCloseTo(0, within(0.01));
        assertThat(estimate.standardUncertainty() / PSI).isCloseTo(0.1, within(0.002));
    }

    @Test
    void betweenTwoLevelsOfOneTransducerTheCalibrationCancels() {
        HandMade run = new HandMade(8, 1).pressure("brake-cylinder@1", t -> t < 1 ? 20 : 25);
        Measured moved = measured(run, new Check.Movement(CYLINDER, 0.5, 1, 1, BAND));
        assertThat(moved.estimate().value() / PSI).isCloseTo(5, within(0.02));
        assertThat(component(moved.estimate(), "calibration/P-brake-cylinder@1"))
                .isZero();
        assertThat(moved.estimate().expanded() / PSI).isLessThan(0.02);
        Measured changed = measured(run, new Check.Change(CYLINDER, 1, 4, 0.5, BAND));
        assertThat(changed.estimate().value() / PSI).isCloseTo(0, within(0.02));
        assertThat(changed.marks()).hasSize(2);
    }

    @Test
    void betweenTwoTransducersBothCalibrationsEnter() {
        HandMade run = new HandMade(8, 1).pressure("brake-cylinder@1", t -> 25).pressure("brake-cylinder@4", t -> 24);
        Measured agreed = measured(run, new Check.Agreement(REAR, CYLINDER, 1, 1, BAND));
        assertThat(agreed.estimate().value() / PSI).isCloseTo(-1, within(0.02));
        assertThat(agreed.estimate().standardUncertainty() / PSI).isCloseTo(0.1 * Math.sqrt(2), within(0.002));
    }

    @Test
    void aRememberedLevelOfTheSameTransducerIsComparedWithoutItsCalibration() {
        HandMade run = new HandMade(8, 1).pressure("brake-cylinder@1", t -> 25);
        Estimate before = Levels.reading(
                24.5 * PSI, HandMade.instrument(CYLINDER), Input.stated(10, Dimension.PRESSURE), "before");
        Check.Repeat repeat = new Check.Repeat(CYLINDER, "going up", 1, 1, BAND);
        Sight sight = sight(run, 8, Map.of("going up", new Remembered(before, List.of())));
        Measured again = (Measured) new Levels(sight).repeat(repeat);
        assertThat(again.estimate().value() / PSI).isCloseTo(0.5, within(0.02));
        assertThat(again.estimate().expanded() / PSI).isLessThan(0.02);
        reason(run, repeat, "'going up' that it is held against was not measured");
    }

    @Test
    void aLeakIsAStraightLineWhateverTheTransducersOffset() {
        HandMade run = new HandMade(130, 1).pressure("brake-cylinder@1", t -> 40 - 0.6 * t / 60);
        Limit rate = Limits.atMost(Dimension.LEAK_RATE, PSI / 60);
        Estimate leak =
                measured(run, new Check.Leak(CYLINDER, 60, 60, rate), 130).estimate();
        assertThat(leak.dimension()).isEqualTo(Dimension.LEAK_RATE);
        assertThat(leak.value() * 60 / PSI).isCloseTo(0.6, within(0.01));
        assertThat(leak.expanded() * 60 / PSI).isLessThan(0.01);
        Estimate fall =
                measured(run, new Check.Leak(CYLINDER, 60, 60, BAND), 130).estimate();
        assertThat(fall.value() / PSI).isCloseTo(0.6, within(0.01));
    }

    @Test
    void aFallThatIsNoStraightLineIsLessWellKnown() {
        Limit rate = Limits.atMost(Dimension.LEAK_RATE, PSI / 60);
        Check.Leak check = new Check.Leak(CYLINDER, 0, 60, rate);
        HandMade straight = new HandMade(70, 1).pressure("brake-cylinder@1", t -> 40 - t / 60);
        HandMade cooling = new HandMade(70, 1).pressure("brake-cylinder@1", t -> 40 + 2 * StrictMath.exp(-t / 10));
        assertThat(measured(cooling, check, 70).estimate().expanded())
                .isGreaterThan(20 * measured(straight, check, 70).estimate().expanded());
    }

    @Test
    void theExtremeNearestTheLimitIsReported() {
        HandMade run = new HandMade(8, 1).pressure("brake-cylinder@1", t -> t > 3 && t < 4 ? 21 : 20);
        Measured high = measured(run, new Check.Stays(CYLINDER, OptionalDouble.of(5), Limits.psi(10, 22)));
        assertThat(high.estimate().value() / PSI).isCloseTo(21, within(0.06));
        Measured low = measured(run, new Check.Stays(CYLINDER, OptionalDouble.of(5), Limits.psi(19, 40)));
        assertThat(low.estimate().value() / PSI).isCloseTo(20, within(0.06));
    }

    @Test
    void whatLeftItsBandHasLeftItWhateverWasLost() {
        HandMade run = new HandMade(8, 1)
                .pressure("brake-cylinder@1", t -> t > 3 && t < 4 ? 30 : 20)
                .lost("brake-cylinder@1", 5, 5.5);
        measured(run, new Check.Stays(CYLINDER, OptionalDouble.of(5), Limits.psi(10, 22)));
        reason(run, new Check.Stays(CYLINDER, OptionalDouble.of(5), Limits.psi(10, 40)), "lost");
    }

    @Test
    void aWiresTimeOwesItsDoubtToTheStamps() {
        HandMade run = new HandMade(8, 1).wire("holding", 1.050);
        Estimate time =
                measured(run, new Check.WireSwitches(HOLDING, true, 2, TIME)).estimate();
        assertThat(time.value()).isCloseTo(0.050, within(1e-12));
        double stamps = Math.sqrt((10e-6 * 10e-6 + 100e-6 * 100e-6) / 3);
        assertThat(time.standardUncertainty()).isCloseTo(stamps, within(1e-7));
    }

    @Test
    void aWireThatWasOnBeforehandDidNotSwitch() {
        HandMade run = new HandMade(8, 1).wire("holding", 0.5);
        reason(run, new Check.WireSwitches(HOLDING, true, 2, TIME), "already before the stimulus");
        assertThat(measure(run, new Check.WireSwitches(HOLDING, false, 2, TIME)))
                .isInstanceOf(NeverHappened.class);
    }

    @Test
    void pulsesAreCountedExactly() {
        HandMade run = new HandMade(8, 1).wire("holding", 1.1, 1.2, 2, 2.1, 5, 5.5, 7.5);
        Limit two = Limits.atMost(Dimension.COUNT, 2);
        Measured counted = measured(run, new Check.Pulses(HOLDING, OptionalDouble.of(3), two));
        assertThat(counted.estimate()).isEqualTo(new Estimate(2, Dimension.COUNT, List.of()));
        assertThat(measured(run, new Check.Pulses(HOLDING, OptionalDouble.of(6), two))
                        .estimate()
                        .value())
                .isEqualTo(3);
    }

    @Test
    void aConditionThatMayHaveHeldIsInDoubtByTheCount() {
        Limit none = Limits.atMost(Dimension.COUNT, 0);
        PlannedCondition above = new PlannedCondition.Above(CYLINDER, 30 * PSI);
        Check.NeverHolds check = new Check.NeverHolds(above, 0, OptionalDouble.of(5), none);
        HandMade near = new HandMade(8, 1).pressure("brake-cylinder@1", t -> t > 3 && t < 4 ? 29.9 : 20);
        assertThat(measured(near, check).estimate().expanded()).isGreaterThanOrEqualTo(1);
        HandMade far = new HandMade(8, 1).pressure("brake-cylinder@1", t -> 20);
        assertThat(measured(far, check).estimate()).isEqualTo(new Estimate(0, Dimension.COUNT, List.of()));
        HandMade surely = new HandMade(8, 1).pressure("brake-cylinder@1", t -> t > 3 && t < 4 ? 35 : 20);
        assertThat(measured(surely, check).estimate()).isEqualTo(new Estimate(1, Dimension.COUNT, List.of()));
    }

    @Test
    void whatHeldForLessThanAllowedDoesNotCount() {
        HandMade run =
                new HandMade(8, 1).wire("application", 2, 2.015, 3, 3.030).wire("holding");
        PlannedCondition alone = new PlannedCondition.AllOf(List.of(
                new PlannedCondition.WireIs(new Signal.Wire("application"), true),
                new PlannedCondition.WireIs(HOLDING, false)));
        Limit none = Limits.atMost(Dimension.COUNT, 0);
        Check.NeverHolds check = new Check.NeverHolds(alone, 0.020, OptionalDouble.of(5), none);
        assertThat(measured(run, check).estimate()).isEqualTo(new Estimate(1, Dimension.COUNT, List.of()));
    }

    @Test
    void theTimeBetweenTwoEventsIsSigned() {
        HandMade run = new HandMade(8, 1).wire("holding", 2).pressure("brake-cylinder@1", MeasuringTest::fill);
        PlannedCondition wire = new PlannedCondition.WireIs(HOLDING, true);
        PlannedCondition level = new PlannedCondition.Above(CYLINDER, 10 * PSI);
        Limit by = Limits.atLeast(Dimension.TIME, 0.1);
        Estimate later =
                measured(run, new Check.ComesBefore(level, wire, 5, by)).estimate();
        assertThat(later.value()).isCloseTo(0.5, within(0.003));
        assertThat(Math.abs(component(later, "calibration/P-brake-cylinder@1"))).isCloseTo(0.005, within(0.001));
        Estimate earlier =
                measured(run, new Check.ComesBefore(wire, level, 5, by)).estimate();
        assertThat(earlier.value()).isCloseTo(-0.5, within(0.003));
    }

    /** A first try at 2 s ends 0.1 psi short of the level, half its uncertainty; the wire came between the two. */
    @Test
    void anEventThatNearlyCameEarlierLeavesTheOrderOpen() {
        PlannedCondition wire = new PlannedCondition.WireIs(HOLDING, true);
        PlannedCondition level = new PlannedCondition.Above(CYLINDER, 10 * PSI);
        Limit by = Limits.atLeast(Dimension.TIME, 0.1);
        HandMade nearly = new HandMade(8, 1)
                .wire("holding", 3)
                .pressure("brake-cylinder@1", t -> t < 2 ? 0 : t < 2.5 ? 9.9 : t < 4 ? 0 : 20);
        Estimate between =
                measured(nearly, new Check.ComesBefore(wire, level, 5, by)).estimate();
        assertThat(between.value()).isCloseTo(1, within(0.01));
        assertThat(component(between, "level close by/second")).isCloseTo(1, within(0.02));
        assertThat(by.holds(between)).isFalse();
        HandMade clearly = new HandMade(8, 1)
                .wire("holding", 3)
                .pressure("brake-cylinder@1", t -> t < 2 ? 0 : t < 2.5 ? 9 : t < 4 ? 0 : 20);
        assertThat(by.holds(measured(clearly, new Check.ComesBefore(wire, level, 5, by))
                        .estimate()))
                .isTrue();
    }

    @Test
    void anEventThatNearlyCameIsNotSaidNeverToHaveCome() {
        PlannedCondition wire = new PlannedCondition.WireIs(HOLDING, true);
        PlannedCondition level = new PlannedCondition.Above(CYLINDER, 10 * PSI);
        Limit by = Limits.atLeast(Dimension.TIME, 0.1);
        HandMade near = new HandMade(8, 1).wire("holding", 3).pressure("brake-cylinder@1", t -> t < 4 ? 0 : 9.9);
        reason(near, new Check.ComesBefore(wire, level, 5, by), "the second of the two came within the uncertainty");
        // Were it to have come, it would have come too early.
        HandMade wrong = new HandMade(8, 1).wire("holding", 3).pressure("brake-cylinder@1", t -> t < 2 ? 0 : 9.9);
        assertThat(measure(wrong, new Check.ComesBefore(wire, level, 5, by))).isInstanceOf(NeverHappened.class);
        HandMade far = new HandMade(8, 1).wire("holding", 3).pressure("brake-cylinder@1", t -> t < 4 ? 0 : 9);
        assertThat(measure(far, new Check.ComesBefore(wire, level, 5, by))).isInstanceOf(NeverHappened.class);
    }

    /** A dip at 3 s that came within 0.1 psi of the level, half its uncertainty, may have ended the stage. */
    @Test
    void aStageThatNearlyEndedIsInDoubtByWhatItWouldHaveLasted() {
        PlannedCondition on = new PlannedCondition.Above(CYLINDER, 10 * PSI);
        Check check = new Check.Duration(on, 6, Limits.between(Dimension.TIME, 3.5, 5));
        HandMade dipped =
                new HandMade(8, 1).pressure("brake-cylinder@1", t -> t < 2 || t > 6 ? 0 : t > 3 && t < 3.5 ? 10.1 : 20);
        Estimate lasted = measured(dipped, check).estimate();
        assertThat(lasted.value()).isCloseTo(4, within(0.01));
        assertThat(component(lasted, "level close by")).isCloseTo(1.5, within(0.02));
        assertThat(check.limit().holds(lasted)).isFalse();
        HandMade steady = new HandMade(8, 1).pressure("brake-cylinder@1", t -> t < 2 || t > 6 ? 0 : 20);
        assertThat(check.limit().holds(measured(steady, check).estimate())).isTrue();
        HandMade near = new HandMade(8, 1).pressure("brake-cylinder@1", t -> t < 2 || t > 6 ? 0 : 9.9);
        reason(near, check, "missed by less than its uncertainty");
    }

    @Test
    void aRunThatWasCutShortMeasuresNothingLater() {
        HandMade run = new HandMade(3, 1).pressure("brake-cylinder@1", t -> 20);
        Measurement found = new Measuring(run, words())
                .measure(
                        settled(CYLINDER, 0, BAND),
                        new ExpectationWindow("x", 1_000_000, 1_000_000, 2_500_000, false),
                        100,
                        Map.of());
        assertThat(((NotMeasurable) found).reason()).contains("ended 500 ms before");
    }

    private static Check.SettledLevel settled(Signal signal, double target, Limit limit) {
        return new Check.SettledLevel(signal, target * PSI, 1, 1, Optional.empty(), limit);
    }

    private static double component(Estimate estimate, String source) {
        return estimate.components().stream()
                .filter(c -> c.source().equals(source))
                .mapToDouble(Component::standard)
                .sum();
    }

    private static void reason(Recording run, Check check, String words) {
        assertThat(measure(run, check))
                .isInstanceOfSatisfying(
                        NotMeasurable.class, not -> assertThat(not.reason()).contains(words));
    }

    private static Measured measured(Recording run, Check check) {
        return measured(run, check, 8);
    }

    private static Measured measured(Recording run, Check check, double closed) {
        Measurement found = new Measuring(run, words()).measure(check, window(closed), 100, Map.of());
        assertThat(found).isInstanceOf(Measured.class);
        return (Measured) found;
    }

    private static Measurement measure(Recording run, Check check) {
        return new Measuring(run, words()).measure(check, window(8), 100, Map.of());
    }

    /** The stimulus was at 1 s. */
    private static ExpectationWindow window(double closed) {
        return new ExpectationWindow("x", 1_000_000, 1_000_000, Math.round(closed * 1e6), true);
    }

    private static Sight sight(Recording run, double closed, Map<String, Remembered> remembered) {
        return new Sight(run, window(closed), 100, remembered, words());
    }

    private static Words words() {
        return new Words(PressureDisplay.PSI);
    }
}
