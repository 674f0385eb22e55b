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
import dev.lapwing.plan.PlannedCondition.Above;
import dev.lapwing.plan.PlannedCondition.Always;
import dev.lapwing.plan.PlannedCondition.AnyOf;
import dev.lapwing.plan.PlannedCondition.Below;
import dev.lapwing.plan.PlannedCondition.Eventually;
import dev.lapwing.plan.PlannedCondition.Not;
import dev.lapwing.plan.PlannedCondition.Until;
import dev.lapwing.plan.PlannedCondition.WireIs;
import dev.lapwing.plan.PlannedExpectation;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.uncertainty.Component;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;

class TemporalTest {
    private static final Signal CYLINDER = Keys.signal("brake-cylinder@4").orElseThrow();
    private static final Signal PIPE = Keys.signal("brake-pipe@4").orElseThrow();
    private static final Signal.Wire APPLICATION = new Signal.Wire("application");
    private static final Limit IN_PSI = Limits.atLeast(Dimension.PRESSURE, 0);
    private static final Limit IN_TIME = Limits.atLeast(Dimension.TIME, 0);

    private static PlannedCondition above(double psi) {
        return new Above(CYLINDER, psi * PSI);
    }

    private static PlannedCondition below(double psi) {
        return new Below(CYLINDER, psi * PSI);
    }

    private static Measurement comesTrue(HandMade run, PlannedCondition condition, Limit limit) {
        Check.Temporal check = new Check.Temporal(
                condition, false, OptionalDouble.empty(), limit.dimension() == Dimension.TIME ? 2 : 0, limit);
        return measure(run, check, 1, 11.5);
    }

    private static Measurement staysTrue(
            HandMade run, PlannedCondition condition, Limit limit, double from, double to) {
        Check.Temporal check = new Check.Temporal(
                condition, true, OptionalDouble.empty(), limit.dimension() == Dimension.TIME ? 2 : 0, limit);
        return measure(run, check, from, to);
    }

    private static Measurement measure(HandMade run, Check check, double origin, double closed) {
        ExpectationWindow seen = new ExpectationWindow(
                "x", Math.round(origin * 1e6), Math.round(origin * 1e6), Math.round(closed * 1e6), true);
        return new Measuring(run, new Words(PressureDisplay.PSI)).measure(check, seen, 50, Map.of());
    }

    private static double psi(Measurement measurement) {
        return ((Measured) measurement).estimate().value() / PSI;
    }

    private static double seconds(Measurement measurement) {
        return ((Measured) measurement).estimate().value();
    }

    /** Up at 20 psi/s from 1 s on, to 50 psi at 3.5 s; down at 10 psi/s from 7 s on. */
    private static HandMade fillsAndEmpties() {
        return new HandMade(12, 5)
                .pressure("brake-cylinder@4", t -> Math.max(0, Math.min(Math.min(50, 20 * (t - 1)), 50 - 10 * (t - 7))))
                .pressure("brake-pipe@4", t -> t < 6 ? 70 : 60)
                .wire("application", 0.9, 3.4);
    }

    @Test
    void theMarginOfAnEventualityIsHowFarItGot() {
        Measurement margin = comesTrue(fillsAndEmpties(), new Eventually(0, 3, above(45)), IN_PSI);
        assertThat(psi(margin)).isCloseTo(5, within(0.08));
        assertThat(margin.marks()).singleElement().satisfies(mark -> {
            assertThat(mark.signal()).isEqualTo("brake-cylinder@4");
            assertThat(mark.value() / PSI).isCloseTo(50, within(0.08));
        });
    }

    @Test
    void aMarginInTimeIsWhatIsLeftOfTheBound() {
        // 45 psi are there 2.25 s after the stimulus, and 3 s are allowed.
        Measurement margin = comesTrue(fillsAndEmpties(), new Eventually(0, 3, above(45)), IN_TIME);
        assertThat(seconds(margin)).isCloseTo(0.75, within(0.01));
        // 0.1 psi at 20 psi/s.
        assertThat(((Measured) margin).estimate().components())
                .filteredOn(c -> c.source().startsWith("calibration/"))
                .singleElement()
                .satisfies(c -> assertThat(Math.abs(c.standard())).isCloseTo(0.005, within(0.0005)));
        assertThat(((Measured) margin).estimate().components())
                .extracting(Component::source)
                .contains("stimulus stamp");
    }

    @Test
    void whatComesTooLateIsFalseByAsMuch() {
        Measurement margin = comesTrue(fillsAndEmpties(), new Eventually(0, 2, above(45)), IN_TIME);
        assertThat(seconds(margin)).isCloseTo(-0.25, within(0.01));
        assertThat(psi(comesTrue(fillsAndEmpties(), new Eventually(0, 2, above(45)), IN_PSI)))
                .isCloseTo(-5, within(0.3));
    }

    @Test
    void theTimeBetweenTwoThingsIsSpentOnce() {
        // The wire comes on at 0.9 s and 5 psi are there 0.35 s later, with 0.6 s allowed.
        PlannedCondition answers = new AnyOf(
                List.of(new WireIs(APPLICATION, false), new Eventually(0, 0.6, new AnyOf(List.of(above(5))))));
        Measurement margin = staysTrue(fillsAndEmpties(), answers, IN_TIME, 0.5, 5);
        assertThat(seconds(margin)).isCloseTo(0.25, within(0.01));
        assertThat(margin.marks()).extracting(m -> m.signal()).contains("brake-cylinder@4", "wire/application");
        assertThat(((Measured) margin).estimate().components())
                .extracting(Component::source)
                .contains("stamp/D-application", "stamp/P-brake-cylinder@4")
                .doesNotContain("stimulus stamp");
    }

    @Test
    void untilTellsHowLongSomethingHeldBefore() {
        PlannedCondition holds = new Until(0, 8, new Above(PIPE, 65 * PSI), above(45));
        assertThat(psi(comesTrue(fillsAndEmpties(), holds, IN_PSI))).isCloseTo(5, within(0.1));
        assertThat(psi(comesTrue(
                        fillsAndEmpties(), new Not(new Until(0, 8, new Above(PIPE, 65 * PSI), above(45))), IN_PSI)))
                .isCloseTo(-5, within(0.1));
        // The pipe falls at 6 s, 2.75 s after the 45 psi, which counts up to 2 s.
        assertThat(seconds(comesTrue(fillsAndEmpties(), holds, IN_TIME))).isCloseTo(2, within(1e-9));
        PlannedCondition full = new Until(0, 8, below(45), new Below(PIPE, 65 * PSI));
        assertThat(seconds(comesTrue(fillsAndEmpties(), full, IN_TIME))).isLessThanOrEqualTo(-2);
    }

    @Test
    void theDoubtOfALevelIsThatOfTheTransducerThatDecides() {
        Measured margin = (Measured) staysTrue(fillsAndEmpties(), below(53), IN_PSI, 1, 9);
        assertThat(margin.estimate().value() / PSI).isCloseTo(3, within(0.1));
        assertThat(margin.estimate().components())
                .filteredOn(c -> c.source().equals("calibration/P-brake-cylinder@4"))
                .singleElement()
                .satisfies(c -> assertThat(c.standard() / PSI).isCloseTo(-0.1, within(1e-9)));
    }

    @Test
    void aMarginAtTheEdgeOfItsBoundsOwesToTheStamps() {
        // At 2 s the pressure rises by 20 psi/s through 20 psi; the stimulus is stamped to 50 us.
        Measured margin = (Measured) comesTrue(fillsAndEmpties(), new Always(1, 1, below(30)), IN_PSI);
        assertThat(margin.estimate().components())
                .filteredOn(c -> c.source().equals("stimulus stamp"))
                .singleElement()
                .satisfies(c ->
                        assertThat(Math.abs(c.standard()) / PSI).isCloseTo(20 * 50e-6 / Math.sqrt(3), within(1.5e-4)));
    }

    @Test
    void wiresAloneThatMakeItTrueMeasureNothing() {
        PlannedCondition never = new AnyOf(List.of(new WireIs(APPLICATION, false), below(60)));
        Measurement off = staysTrue(fillsAndEmpties(), never, IN_PSI, 4, 9);
        assertThat(((NotMeasurable) off).reason()).contains("wires alone made it true");
        Measurement on = staysTrue(fillsAndEmpties(), new WireIs(APPLICATION, true), IN_PSI, 1, 9);
        assertThat(((NeverHappened) on).instead()).contains("application wire decides it");
    }

    @Test
    void aLevelThatIsPassedWithinItsDoubtMakesATimeDoubtful() {
        HandMade run = new HandMade(12, 3).pressure("brake-cylinder@4", t -> t < 3 ? 20 : t < 4 ? 52.85 : 20);
        Measured margin = (Measured) comesTrue(run, new Always(0, 6, below(53)), IN_TIME);
        assertThat(margin.estimate().value()).isCloseTo(2, within(1e-9));
        assertThat(margin.estimate().expanded()).isGreaterThan(margin.estimate().value());
    }

    @Test
    void whatWasLostWhereItDoesNotMatterDoesNotMatter() {
        PlannedCondition fills = new Eventually(0, 8, above(45));
        Measurement early =
                comesTrue(fillsAndEmpties().lost("brake-cylinder@4", 1.2, 1.4), new Always(2.5, 5, above(45)), IN_PSI);
        assertThat(psi(early)).isCloseTo(5, within(0.2));
        Measurement inTheWay =
                comesTrue(fillsAndEmpties().lost("brake-cylinder@4", 3.9, 4.1), new Always(2.5, 5, above(45)), IN_PSI);
        assertThat(((NotMeasurable) inTheWay).reason()).contains("lost for 200 ms");
        // It might have got higher where nobody saw it, so how far it got is not known.
        assertThat(comesTrue(fillsAndEmpties().lost("brake-cylinder@4", 3.9, 4.1), fills, IN_PSI))
                .isInstanceOf(NotMeasurable.class);
    }

    @Test
    void whatIsOutsideWhateverWasLostIsOutside() {
        Measurement failed = staysTrue(fillsAndEmpties().lost("brake-cylinder@4", 2, 2.2), below(40), IN_PSI, 1, 9);
        assertThat(psi(failed)).isCloseTo(-10, within(0.2));
    }

    @Test
    void stepsShorterThanItLooksAheadAreAsked() {
        Measurement none = staysTrue(fillsAndEmpties(), new Eventually(0, 5, above(45)), IN_PSI, 1, 4);
        assertThat(((NotMeasurable) none).reason()).contains("no longer than the condition looks ahead");
    }

    @Test
    void nothingThatComesAfterItIsDecidedChangesIt() {
        List<PlannedCondition> conditions = List.of(
                new Eventually(0, 3, above(45)),
                new Always(0, 2, new Eventually(0, 1.5, above(10))),
                new Until(0, 8, new Below(PIPE, 75 * PSI), above(45)),
                new Until(0, 7, below(30), new Above(PIPE, 69 * PSI)));
        HandMade whole = fillsAndEmpties();
        for (PlannedCondition condition : conditions) {
            for (Limit limit : List.of(IN_PSI, IN_TIME)) {
                Check.Temporal check =
                        new Check.Temporal(condition, false, OptionalDouble.empty(), limit == IN_TIME ? 2 : 0, limit);
                PlannedExpectation asked = new PlannedExpectation("x", "x", "t:1:1", check);
                double now = 1;
                while (!CheckWatch.of(asked, 1_000_000, 0, whole.until(now)).decided(Math.round(now * 1e6))) {
                    now += 0.2;
                }
                assertThat(measure(whole, check, 1, now))
                        .as("%s, decided at %f s", condition, now)
                        .isEqualTo(measure(whole.until(now), check, 1, now));
                assertThat(now).isLessThan(12.5);
            }
        }
    }
}
