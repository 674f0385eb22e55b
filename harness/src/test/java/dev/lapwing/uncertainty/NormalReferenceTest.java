package dev.lapwing.uncertainty;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/**
 * The normal generator against the normal distribution.
 *
 * <p>Source: M. Abramowitz, I. A. Stegun, Handbook of Mathematical Functions (1964), table 26.1, P(x) at 0, 0.5, 1,
 * 1.5, 2, 3 and 4, from memory; the layers' table against its defining equations in Marsaglia and Tsang (2000).
 */
class NormalReferenceTest {
    private static final double[] X = {0, 0.5, 1, 1.5, 2, 3, 4};
    private static final double[] P = {
        0.5, 0.6914624613, 0.8413447461, 0.9331927987, 0.9772498681, 0.9986501020, 0.9999683288
    };
    private static final int DRAWS = 4_000_000;

    @Test
    void sharesBelowLevelsAreThoseOfTheTable() {
        Normal normal = new Normal(new SplittableRandom(20261124));
        int[] below = new int[X.length];
        int[] above = new int[X.length];
        for (int n = 0; n < DRAWS; n++) {
            double x = normal.next();
            for (int i = 0; i < X.length; i++) {
                below[i] += x < X[i] ? 1 : 0;
                above[i] += x > -X[i] ? 1 : 0;
            }
        }
        for (int i = 0; i < X.length; i++) {
            // Five standard deviations of a binomial share.
            double tolerance = 5 * Math.sqrt(P[i] * (1 - P[i]) / DRAWS);
            assertThat(below[i] / (double) DRAWS).as("below %s", X[i]).isCloseTo(P[i], within(tolerance));
            assertThat(above[i] / (double) DRAWS).as("above -%s", X[i]).isCloseTo(P[i], within(tolerance));
        }
    }

    /** Moments of the standard normal distribution: 0, 1, 0, 3; variances of their estimates 1, 2, 15, 96 over n. */
    @Test
    void momentsAreThoseOfTheStandardNormalDistribution() {
        Normal normal = new Normal(new SplittableRandom(42));
        double[] sums = new double[4];
        for (int n = 0; n < DRAWS; n++) {
            double x = normal.next();
            sums[0] += x;
            sums[1] += x * x;
            sums[2] += x * x * x;
            sums[3] += x * x * x * x;
        }
        double[] expected = {0, 1, 0, 3};
        double[] variance = {1, 2, 15, 96};
        for (int i = 0; i < 4; i++) {
            assertThat(sums[i] / DRAWS).isCloseTo(expected[i], within(5 * Math.sqrt(variance[i] / DRAWS)));
        }
    }

    /**
     * Every layer has the same area under exp(−x²/2), the lowest with the tail beyond R, summed here in small steps.
     */
    @Test
    void theLayersHaveEqualAreas() {
        double[] edge = Normal.edges();
        assertThat(edge[0] * Normal.density(Normal.R)).isCloseTo(Normal.V, within(1e-15));
        for (int i = 1; i < Normal.LAYERS; i++) {
            double area = edge[i] * (Normal.density(edge[i + 1]) - Normal.density(edge[i]));
            assertThat(area).as("layer %s", i).isCloseTo(Normal.V, within(i == Normal.LAYERS - 1 ? 1e-9 : 1e-14));
        }
        double tail = 0;
        double step = 1e-4;
        for (double x = Normal.R + step / 2; x < 12; x += step) {
            tail += step * Normal.density(x);
        }
        assertThat(Normal.R * Normal.density(Normal.R) + tail).isCloseTo(Normal.V, within(1e-9));
    }
}
