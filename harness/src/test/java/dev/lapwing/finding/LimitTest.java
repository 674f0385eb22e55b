package dev.lapwing.finding;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lapwing.quantity.Dimension;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.DecisionRule;
import dev.lapwing.uncertainty.Estimate;
import java.util.List;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** Where a value lies by a limit with one end or two. */
class LimitTest {
    private static final OptionalDouble NONE = OptionalDouble.empty();

    @Test
    void aLimitHasAnEnd() {
        assertThatThrownBy(() -> limit(NONE, NONE)).hasMessage("limit rest has neither a lower nor an upper end");
    }

    @Test
    void theMarginIsThatToTheNearerEndAndNegativeOutside() {
        Limit both = limit(OptionalDouble.of(2), OptionalDouble.of(5));
        assertThat(both.margin(2.5)).isEqualTo(0.5);
        assertThat(both.margin(4.75)).isEqualTo(0.25);
        assertThat(both.margin(1)).isEqualTo(-1);
        assertThat(both.margin(7)).isEqualTo(-2);
        assertThat(limit(OptionalDouble.of(2), NONE).margin(100)).isEqualTo(98);
        assertThat(limit(NONE, OptionalDouble.of(5)).margin(-100)).isEqualTo(105);
    }

    /** The interval is all inside, all outside, or reaches over an end: one of the three, by its ends alone. */
    @Test
    void whatIsHeldIsNeverExcludedAndTheMarginSaysTheSame() {
        SplittableRandom random = new SplittableRandom(9);
        int held = 0;
        int excluded = 0;
        for (int i = 0; i < 5000; i++) {
            double low = random.nextDouble(-5, 5);
            OptionalDouble lower = random.nextInt(4) == 0 ? NONE : OptionalDouble.of(low);
            OptionalDouble upper = lower.isPresent() && random.nextInt(4) == 0
                    ? NONE
                    : OptionalDouble.of(low + random.nextDouble(0, 5));
            Limit limit = limit(lower, upper);
            Estimate measured = measured(random.nextDouble(-10, 10), random.nextDouble(0.001, 1));
            double margin = limit.margin(measured.value());
            double reach = measured.expanded();

            assertThat(limit.holds(measured) && limit.excludes(measured)).isFalse();
            assertThat(limit.holds(measured)).isEqualTo(margin >= reach);
            assertThat(limit.excludes(measured)).isEqualTo(margin < -reach);
            // Two standard uncertainties leave 2.275 % to either side (95.45 % between).
            if (limit.holds(measured)) {
                held++;
                assertThat(limit.conformity(measured).probability()).isGreaterThan(0.954);
            } else if (limit.excludes(measured)) {
                excluded++;
                assertThat(limit.conformity(measured).probability()).isLessThan(0.0228);
            }
        }
        assertThat(held).isGreaterThan(500);
        assertThat(excluded).isGreaterThan(500);
    }

    private static Estimate measured(double value, double standard) {
        return new Estimate(value, Dimension.TIME, List.of(new Component("a", standard)));
    }

    private static Limit limit(OptionalDouble lower, OptionalDouble upper) {
        return new Limit("rest", Dimension.TIME, lower, upper, DecisionRule.GUARDED, NONE, "a test", "test.yaml:1:1");
    }
}
