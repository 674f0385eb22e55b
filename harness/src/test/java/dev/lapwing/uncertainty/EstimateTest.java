package dev.lapwing.uncertainty;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lapwing.quantity.Dimension;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class EstimateTest {

    /** Root sum of squares of independent sources: 3 and 4 make 5. */
    @Test
    void independentSourcesAddAsSquares() {
        assertThat(estimate(1, "a", 3, "b", 4).standardUncertainty()).isEqualTo(5);
        assertThat(estimate(1, "a", 3, "b", 4).expanded()).isEqualTo(10);
    }

    @Test
    void whatTwoOwnToOneSourceCancelsInTheirDifference() {
        Estimate difference = estimate(50, "cal", 0.1, "n1", 0.03).minus(estimate(20, "cal", 0.1, "n2", 0.04));
        assertThat(difference.value()).isEqualTo(30);
        assertThat(difference.standardUncertainty()).isCloseTo(0.05, within(1e-15));
    }

    @Test
    void whatIsCommonToAllNeverAveragesAway() {
        for (int n = 1; n <= 1000; n *= 10) {
            Estimate mean = estimate(10, "cal", 0.1, "n0", 0.5);
            for (int i = 1; i < n; i++) {
                mean = mean.combine((double) i / (i + 1), 1.0 / (i + 1), estimate(10, "cal", 0.1, "n" + i, 0.5));
            }
            double noise = 0.5 / Math.sqrt(n);
            assertThat(mean.standardUncertainty()).isCloseTo(Math.sqrt(0.01 + noise * noise), within(1e-12));
        }
    }

    /** A budget is checked against 100000 draws of its sources; 1 % is four times the scatter of such a deviation. */
    @Test
    void theBudgetOfACombinationIsWhatDrawsGive() {
        Estimate whole = estimate(0, "a", 0.3, "b", 0.2).combine(2, -1.5, estimate(0, "a", -0.1, "c", 0.4));
        SplittableRandom random = new SplittableRandom(1);
        double sum = 0;
        int draws = 100_000;
        for (int i = 0; i < draws; i++) {
            double a = normal(random);
            double drawn = 2 * (0.3 * a + 0.2 * normal(random)) - 1.5 * (-0.1 * a + 0.4 * normal(random));
            sum += drawn * drawn;
        }
        double standard = whole.standardUncertainty();
        assertThat(Math.sqrt(sum / draws)).isCloseTo(standard, within(0.01 * standard));
    }

    @Test
    void whatRestsOnFewObservationsIsWidened() {
        Component seen = Component.of("noise", 1, Input.observed(3, Dimension.PRESSURE, 4));
        Estimate alone = new Estimate(0, Dimension.PRESSURE, List.of(seen));
        assertThat(alone.degreesOfFreedom()).hasValue(4);
        assertThat(alone.coverageFactor()).isCloseTo(2.87, within(0.005));
        Estimate certain = alone.with(new Component("calibration", 300));
        assertThat(certain.coverageFactor()).isCloseTo(2, within(1e-4));
    }

    /** Two readings of one cause have its degrees of freedom, not those of two causes. */
    @Test
    void oneCauseKeepsItsDegreesOfFreedomHoweverOftenItEnters() {
        Component seen = Component.of("a", 1, Input.observed(3, Dimension.PRESSURE, 4));
        Estimate once = new Estimate(1, Dimension.PRESSURE, List.of(seen));
        Estimate thrice = once.combine(2, 1, once);
        assertThat(thrice.components()).hasSize(1);
        assertThat(thrice.standardUncertainty()).isEqualTo(9);
        assertThat(thrice.degreesOfFreedom().orElseThrow()).isCloseTo(4, within(1e-12));
        assertThat(thrice.components().get(0).sensitivity()).hasValue(3);
    }

    private static double normal(SplittableRandom random) {
        return StrictMath.sqrt(-2 * StrictMath.log(1 - random.nextDouble()))
                * StrictMath.cos(2 * Math.PI * random.nextDouble());
    }

    private static Estimate estimate(double value, String one, double u1, String other, double u2) {
        return new Estimate(value, Dimension.PRESSURE, List.of(new Component(one, u1), new Component(other, u2)));
    }
}
