package dev.lapwing.measure;

import static dev.lapwing.measure.HandMade.PSI;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.finding.Limit;
import dev.lapwing.measure.Measurement.NotMeasurable;
import dev.lapwing.naming.Keys;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import dev.lapwing.plan.Course.ExpectationWindow;
import dev.lapwing.plan.PlannedCondition;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.signal.GrowingTrace;
import dev.lapwing.signal.Polyline;
import dev.lapwing.signal.Trace;
import dev.lapwing.signal.Traces;
import dev.lapwing.uncertainty.Instrument;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** What is not worth a figure is refused, with the reason and what would mend it. */
class RefusalTest {
    private static final String KEY = "brake-cylinder@1";
    private static final OptionalDouble NONE = OptionalDouble.empty();
    private static final Signal CYLINDER = Keys.signal(KEY).orElseThrow();

    @Test
    void tooFewSamplesSayNothing() {
        HandMade run = new HandMade(10, 1).trace(CYLINDER, everySecond());
        assertRefused(run, level(), "samples of brake cylinder at vehicle 1 came where", "look at the bench's stream");
    }

    @Test
    void lostSamplesInTheWindowSayNothing() {
        HandMade run = new HandMade(10, 1).pressure(KEY, t -> 50).lost(KEY, 7.1, 7.2);
        assertRefused(run, level(), "were lost for 100 ms", "see to the bench's link and run it again");
    }

    @Test
    void aSaturatedTransducerSaysNothing() {
        HandMade run = new HandMade(10, 1).pressure(KEY, t -> 200);
        assertRefused(
                run,
                level(),
                "stood at the end of its transducer's range",
                "use a transducer whose range goes further");
    }

    /** From 40 psi up to a peak at 3.1 s, of a transducer whose range ends at 150 psi. */
    private static HandMade peak(double psi) {
        return new HandMade(10, 1)
                .pressure(KEY, t -> 40 + (psi - 40) * Math.exp(-Math.pow((t - 3.1) / 0.12, 2)))
                .within(KEY, 150);
    }

    @Test
    void aPeakThatIsCutOffByTheEndOfTheRangeIsNoExtreme() {
        // Cut off for 70 ms.
        HandMade run = peak(160);
        PlannedCondition below = new PlannedCondition.Below(CYLINDER, 155 * PSI);
        Limit positive = Limits.atLeast(Dimension.PRESSURE, 0);
        for (Check check : List.of(
                new Check.Stays(CYLINDER, OptionalDouble.of(5), Limits.atMost(Dimension.PRESSURE, 155 * PSI)),
                new Check.Temporal(below, true, OptionalDouble.of(5), 0, positive))) {
            assertRefused(
                    run,
                    check,
                    "stood at the end of its transducer's range, 150 psi",
                    "use a transducer whose range goes further");
        }
    }

    /** What is asked of 155 psi cannot be told once the transducer stood at its 150 psi; before that it can. */
    @Test
    void whatLiesBeyondTheEndOfTheRangeWasNotSeen() {
        PlannedCondition above = new PlannedCondition.Above(CYLINDER, 155 * PSI);
        PlannedCondition below = new PlannedCondition.Below(CYLINDER, 155 * PSI);
        PlannedCondition near = new PlannedCondition.Above(CYLINDER, 38 * PSI);
        Limit late = Limits.atLeast(Dimension.TIME, 0);
        Limit positive = Limits.atLeast(Dimension.PRESSURE, 0);
        OptionalDouble over = OptionalDouble.of(5);
        Polyline curve = new Polyline(List.of(
                new Polyline.Point(0, 42 * PSI),
                new Polyline.Point(1.5, 42 * PSI),
                new Polyline.Point(1.6, 155 * PSI),
                new Polyline.Point(5, 155 * PSI)));
        for (Check check : List.of(
                new Check.NeverHolds(above, 0, over, Limits.atMost(Dimension.COUNT, 0)),
                new Check.Crossing(CYLINDER, true, 155 * PSI, 5, late),
                new Check.Duration(above, 5, late),
                new Check.ComesBefore(new PlannedCondition.Above(CYLINDER, 60 * PSI), above, 5, late),
                new Check.Temporal(below, true, over, 1, late),
                new Check.Temporal(new PlannedCondition.Eventually(0, 5, above), false, NONE, 0, positive),
                new Check.Temporal(new PlannedCondition.AllOf(List.of(below, near)), true, over, 0, positive),
                new Check.Follows(CYLINDER, Optional.empty(), Optional.of(curve), positive))) {
            assertRefused(
                    peak(160),
                    check,
                    "stood at the end of its transducer's range, 150 psi",
                    "use a transducer whose range goes further");
            assertThat(measure(peak(140), check)).isNotInstanceOf(NotMeasurable.class);
        }
    }

    /** 40 psi/s up to the end of the range, and truly ten times as fast beyond it for 30 ms. */
    @Test
    void aRateThatMayHaveBeenSteeperBeyondTheEndOfTheRangeIsNotBelowItsMost() {
        HandMade run = new HandMade(5.3, 1)
                .pressure(KEY, t -> t < 5 ? 10 + 40 * Math.max(0, t - 1.5) : 150 + 400 * Math.min(t - 5, 5.06 - t))
                .within(KEY, 150);
        assertRefused(
                run,
                steepest(Limits.atMost(Dimension.PRESSURE_RATE, 60 * PSI)),
                "stood at the end of its transducer's range, 150 psi",
                "use a transducer whose range goes further");
        for (Limit told : List.of(
                Limits.atMost(Dimension.PRESSURE_RATE, 30 * PSI), Limits.atLeast(Dimension.PRESSURE_RATE, 30 * PSI))) {
            assertThat(measure(run, steepest(told))).isInstanceOf(Measurement.Measured.class);
        }
    }

    private static Check steepest(Limit limit) {
        return new Check.SteepestRate(CYLINDER, true, 0.15, 4.2, limit);
    }

    @Test
    void howAWireWasBeforeItsLevelWasToldIsNotKnown() {
        Signal.Wire holding = new Signal.Wire("holding");
        HandMade run = new HandMade(10, 1).wireToldFrom(3.5, "holding");
        Limit none = Limits.atMost(Dimension.COUNT, 0);
        PlannedCondition on = new PlannedCondition.WireIs(holding, true);
        for (Check check : List.of(
                new Check.Pulses(holding, OptionalDouble.of(3), none),
                new Check.WireSwitches(holding, true, 4, Limits.atMost(Dimension.TIME, 1)),
                new Check.NeverHolds(on, 0, OptionalDouble.of(3), none))) {
            assertRefused(
                    run,
                    check,
                    "nothing was told of holding wire for the first 2.5 s",
                    "see that the bench tells the levels of its wires when a run begins");
        }
    }

    @Test
    void aStuckTransducerSaysNothing() {
        HandMade run = new HandMade(10, 1).pressure(KEY, t -> 50, 0);
        assertRefused(run, level(), "gave the same count", "check it and its wiring");
    }

    @Test
    void aTimeFromAStartThatWasNotHeldIsNone() {
        HandMade run = new HandMade(10, 1).pressure(KEY, t -> 30 + t);
        Check check = new Check.Crossing(CYLINDER, true, 25 * PSI, 5, Limits.atMost(Dimension.TIME, 5));
        assertRefused(run, check, "was above 25 psi already before the stimulus", "let it start from the other side");
    }

    @Test
    void aBeginningOfWhatIsPolledAndNotStampedHasNoTime() {
        Instrument polled =
                new Instrument("BC1", 0.1 * PSI, 0, 1e-4 * PSI, 0.02 * PSI, 40_000, false, "this computer", 50e-6);
        Trace trace =
                Traces.noisy(10_000, 1_000, t -> t < 2 ? 0 : 10 * PSI * (t - 2), 0.02 * PSI, new SplittableRandom(2));
        HandMade run = new HandMade(10, 1).channel(CYLINDER, trace, polled, -10 * PSI, 150 * PSI);
        Check check = new Check.Onset(CYLINDER, true, 4, Limits.atMost(Dimension.TIME, 2));
        assertRefused(
                run,
                check,
                "does not stamp brake cylinder at vehicle 1 where it is read",
                "measure it on a bench that stamps its samples, or ask for the time to a level");
    }

    private static Check level() {
        return new Check.SettledLevel(CYLINDER, 0, 6, 0.5, Optional.empty(), Limits.psi(0, 60));
    }

    private static GrowingTrace everySecond() {
        GrowingTrace trace = new GrowingTrace();
        SplittableRandom random = new SplittableRandom(1);
        for (int i = 0; i < 10; i++) {
            trace.append(i * 1_000_000L + 100, (50 + 0.05 * random.nextDouble()) * PSI);
        }
        return trace;
    }

    private static void assertRefused(HandMade run, Check check, String reason, String mend) {
        assertThat(measure(run, check)).isInstanceOfSatisfying(NotMeasurable.class, not -> {
            assertThat(not.reason()).contains(reason);
            assertThat(not.mend()).isEqualTo(mend);
        });
    }

    private static Measurement measure(HandMade run, Check check) {
        ExpectationWindow seen = new ExpectationWindow("x", 1_000_000, 1_000_000, 9_000_000, true);
        return new Measuring(run, new Words(PressureDisplay.PSI)).measure(check, seen, 0, Map.of());
    }
}
