package dev.lapwing.measure;

import static dev.lapwing.measure.HandMade.PSI;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lapwing.measure.Measurement.Measured;
import dev.lapwing.naming.Keys;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import dev.lapwing.plan.Course.ExpectationWindow;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Estimate;
import java.util.List;
import java.util.Map;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;

/** Coming back into a band of 1 psi about 20 psi, remembered exactly, with a transducer good to 0.1 psi. */
class EntriesTest {
    private static final Signal CYLINDER = Keys.signal("brake-cylinder@1").orElseThrow();

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

    private static Estimate recovery(DoubleUnaryOperator psi) {
        HandMade run = new HandMade(9, 1).pressure("brake-cylinder@1", psi);
        Estimate level = new Estimate(20 * PSI, Dimension.PRESSURE, List.of());
        Measurement found = new Measuring(run, new Words(PressureDisplay.PSI))
                .measure(
                        new Check.Recovery(CYLINDER, "before", PSI, 7, Limits.atMost(Dimension.TIME, 5)),
                        new ExpectationWindow("x", 1_000_000, 1_000_000, 9_000_000, true),
                        100,
                        Map.of("before", new Remembered(level, List.of())));
        assertThat(found).isInstanceOf(Measured.class);
        return ((Measured) found).estimate();
    }

    private static double component(Estimate estimate, String source) {
        return estimate.components().stream()
                .filter(c -> c.source().equals(source))
                .mapToDouble(Component::standard)
                .sum();
    }
}
