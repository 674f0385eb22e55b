package dev.lapwing.uncertainty;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What rounding leaves in means, against closed forms and against rounding itself. */
class RoundingReferenceTest {

    /** Source: JCGM 100:2008, F.2.2.1; a reading rounded to counts of q has a standard uncertainty of 0.29·q. */
    @Test
    void withoutNoiseRoundingIsWholeInAMean() {
        assertThat(Rounding.ofMean(1, 0)).isCloseTo(0.29, within(0.005));
        assertThat(Rounding.ofMean(0.04, 0)).isCloseTo(0.04 / Math.sqrt(12), within(1e-12));
    }

    /** Source: algebra; only the first term is left, q/(π·√2)·e^(−2π²σ²/q²). */
    @ParameterizedTest
    @ValueSource(doubles = {0.5, 0.7, 1})
    void muchNoiseLeavesTheFirstTermAlone(double sigma) {
        double due = StrictMath.exp(-2 * Math.PI * Math.PI * sigma * sigma) / (Math.PI * Math.sqrt(2));
        assertThat(Rounding.ofMean(1, sigma)).isCloseTo(due, within(1e-6 * due));
    }

    /**
     * Source: the definition; the mean of a normal reading rounded to whole numbers is Σ m·P(m − ½ < x < m + ½), its
     * error squared is averaged over places within a count.
     */
    @ParameterizedTest
    @ValueSource(doubles = {0.05, 0.1, 0.2, 0.3, 0.4})
    void littleNoiseLeavesWhatRoundingItselfLeaves(double sigma) {
        int places = 400;
        double square = 0;
        for (int i = 0; i < places; i++) {
            double mu = (i + 0.5) / places - 0.5;
            double mean = 0;
            for (int m = -6; m <= 6; m++) {
                double above = Student.probability((m + 0.5 - mu) / sigma, Double.POSITIVE_INFINITY);
                double below = Student.probability((m - 0.5 - mu) / sigma, Double.POSITIVE_INFINITY);
                mean += m * (above - below);
            }
            square += (mean - mu) * (mean - mu) / places;
        }
        assertThat(Rounding.ofMean(1, sigma)).isCloseTo(Math.sqrt(square), within(1e-3));
    }

    /** The mean of many rounded readings keeps within what is stated. */
    @Test
    void meansOfManyRoundedReadingsScatterAsStated() {
        SplittableRandom random = new SplittableRandom(8);
        Normal normal = new Normal(random);
        double sigma = 0.25;
        int trials = 400;
        int readings = 400;
        double square = 0;
        for (int i = 0; i < trials; i++) {
            double mu = random.nextDouble();
            double sum = 0;
            for (int k = 0; k < readings; k++) {
                sum += Math.rint(mu + sigma * normal.next());
            }
            double error = sum / readings - mu;
            square += error * error / trials;
        }
        double due =
                StrictMath.hypot(Rounding.ofMean(1, sigma), Math.sqrt(sigma * sigma + 1 / 12.0) / Math.sqrt(readings));
        assertThat(Math.sqrt(square)).isCloseTo(due, within(0.1 * due));
    }
}
