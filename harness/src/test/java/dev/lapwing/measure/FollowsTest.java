package dev.lapwing.measure;

import static dev.lapwing.measure.HandMade.PSI;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lapwing.measure.Measurement.Measured;
import dev.lapwing.measure.Measurement.NotMeasurable;
import dev.lapwing.naming.Keys;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import dev.lapwing.plan.Course.ExpectationWindow;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.signal.Polyline;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Estimate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class FollowsTest {
    private static final Signal CYLINDER = Keys.signal("brake-cylinder@1").orElseThrow();
    /** 10 psi/s from 0.5 s to 3 s. */
    private static final Polyline LOWER = line(0.5, 0, 3, 25);
    /** 10 psi/s from 10 psi on, then level. */
    private static final Polyline UPPER = new Polyline(List.of(point(0, 10), point(3, 40), point(5, 40)));

    private static Polyline line(double x0, double y0, double x1, double y1) {
        return new Polyline(List.of(point(x0, y0), point(x1, y1)));
    }

    private static Polyline.Point point(double seconds, double psi) {
        return new Polyline.Point(seconds, psi * PSI);
    }

    private static Measurement follow(HandMade run, Optional<Polyline> lower, Optional<Polyline> upper, double closed) {
        Check.Follows check = new Check.Follows(CYLINDER, lower, upper, Limits.atLeast(Dimension.PRESSURE, 0));
        ExpectationWindow seen = new ExpectationWindow("x", 1_000_000, 1_000_000, Math.round(closed * 1e6), true);
        return new Measuring(run, new Words(PressureDisplay.PSI)).measure(check, seen, 1000, Map.of());
    }

    /**
     * From 1 s on at 10 psi/s, so 5 psi above the lower curve and 10 psi below the upper until it is held at so many.
     */
    private static HandMade rises(double holdsAt) {
        return new HandMade(8, 2).pressure("brake-cylinder@1", t -> Math.max(0, Math.min(holdsAt, 10 * (t - 1))));
    }

    @Test
    void theMarginIsTheLeastDistanceAlongTheCurve() {
        Measured both = (Measured) follow(rises(60), Optional.of(LOWER), Optional.of(UPPER), 8);
        assertThat(both.estimate().value() / PSI).isCloseTo(-10, within(0.1));
        assertThat(both.marks()).singleElement().satisfies(mark -> {
            assertThat(mark.label()).contains("upper");
            assertThat(mark.timeUs() * 1e-6).isCloseTo(6, within(0.02));
        });
        Measured lower = (Measured) follow(rises(60), Optional.of(LOWER), Optional.empty(), 8);
        assertThat(lower.estimate().value() / PSI).isCloseTo(5, within(0.1));
        Measured held = (Measured) follow(rises(22), Optional.of(LOWER), Optional.of(UPPER), 8);
        assertThat(held.estimate().value() / PSI).isCloseTo(-3, within(0.1));
    }

    @Test
    void aStampThatIsWrongMovesTheSignalAlongTheCurve() {
        Measured lower = (Measured) follow(rises(60), Optional.of(LOWER), Optional.empty(), 8);
        // The stimulus is stamped to 1 ms, and the curve rises by 10 psi/s.
        assertThat(standard(lower.estimate(), "stimulus stamp") / PSI).isCloseTo(10e-3 / Math.sqrt(3), within(1e-9));
        assertThat(standard(lower.estimate(), "calibration/P-brake-cylinder@1") / PSI)
                .isCloseTo(0.1, within(1e-9));
        Measured upper = (Measured) follow(rises(60), Optional.empty(), Optional.of(UPPER), 8);
        assertThat(standard(upper.estimate(), "calibration/P-brake-cylinder@1") / PSI)
                .isCloseTo(-0.1, within(1e-9));
    }

    private static double standard(Estimate estimate, String source) {
        return estimate.components().stream()
                .filter(c -> c.source().equals(source))
                .mapToDouble(Component::standard)
                .sum();
    }

    @Test
    void whatWasNotWatchedToTheEndIsInsideOfNothing() {
        assertThat(follow(rises(30), Optional.of(LOWER), Optional.of(UPPER), 3)).isInstanceOf(NotMeasurable.class);
        // Outside already stays outside.
        assertThat(((Measured) follow(rises(0), Optional.of(LOWER), Optional.empty(), 3))
                        .estimate()
                        .value())
                .isLessThan(0);
    }

    @Test
    void aRatioOfTimesOwesNothingToTheClockThatBothShare() {
        Estimate head = time(1.0, "head");
        Estimate rear = time(1.2, "rear");
        Measured ratio = (Measured) compare(head, rear, true);
        assertThat(ratio.estimate().value()).isCloseTo(1.2, within(1e-12));
        assertThat(ratio.estimate().dimension()).isEqualTo(Dimension.RATIO);
        assertThat(standard(ratio.estimate(), "clock/bench")).isCloseTo(0, within(1e-15));
        assertThat(standard(ratio.estimate(), "stamp/rear")).isCloseTo(0.01, within(1e-12));
        assertThat(standard(ratio.estimate(), "stamp/head")).isCloseTo(-0.012, within(1e-12));
        assertThat(((Measured) compare(head, rear, false)).estimate().value()).isCloseTo(0.2, within(1e-12));
        assertThat(compare(time(0.01, "head"), rear, true)).isInstanceOf(NotMeasurable.class);
    }

    private static Estimate time(double seconds, String point) {
        return new Estimate(
                seconds,
                Dimension.TIME,
                List.of(new Component("clock/bench", 0.001 * seconds), new Component("stamp/" + point, 0.01)));
    }

    private static Measurement compare(Estimate head, Estimate rear, boolean over) {
        Check check = new Check.Comparison("rear-time", "head-time", over, Limits.atMost(Dimension.RATIO, 1.3));
        Map<String, Remembered> measured = Map.of(
                Remembered.ofExpectation("head-time"), new Remembered(head, List.of()),
                Remembered.ofExpectation("rear-time"), new Remembered(rear, List.of()));
        ExpectationWindow seen = new ExpectationWindow("x", 0, 0, 0, true);
        return new Measuring(rises(1), new Words(PressureDisplay.PSI)).measure(check, seen, 0, measured);
    }
}
