package dev.lapwing.uncertainty;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Exact binomial intervals against closed forms and the distribution itself, greatest of many against tables. */
class ProportionReferenceTest {

    /**
     * Source: closed form. With no hit in n trials the upper end at level c is 1 − ((1 − c)/2)^(1/n), with n hits the
     * lower end is its mirror image.
     */
    @ParameterizedTest
    @CsvSource({"10, 0.95", "20, 0.95", "400, 0.999", "2000, 0.999"})
    void noHitsAndAllHitsHaveAClosedForm(int trials, double confidence) {
        double upper = 1 - StrictMath.pow((1 - confidence) / 2, 1.0 / trials);
        assertThat(new Proportion(0, trials).upper(confidence)).isCloseTo(upper, within(1e-8));
        assertThat(new Proportion(0, trials).lower(confidence)).isZero();
        assertThat(new Proportion(trials, trials).lower(confidence)).isCloseTo(1 - upper, within(1e-8));
        assertThat(new Proportion(trials, trials).upper(confidence)).isEqualTo(1);
    }

    /**
     * Source: Clopper and Pearson, Biometrika 26 (1934), the condition that defines the interval: at the lower end so
     * many hits or more, and at the upper end so many or fewer, have the probability (1 − c)/2.
     */
    @ParameterizedTest
    @CsvSource({"3, 10, 0.95", "1, 30, 0.95", "57, 60, 0.999", "950, 1000, 0.999"})
    void atTheEndsTheTailsAreAsDefined(int hits, int trials, double confidence) {
        Proportion share = new Proportion(hits, trials);
        double tail = (1 - confidence) / 2;
        assertThat(1 - upTo(hits - 1, trials, share.lower(confidence))).isCloseTo(tail, within(1e-6));
        assertThat(upTo(hits, trials, share.upper(confidence))).isCloseTo(tail, within(1e-6));
    }

    private static double upTo(int hits, int trials, double p) {
        double sum = 0;
        double log = trials * StrictMath.log1p(-p);
        for (int k = 0; k <= hits; k++) {
            sum += StrictMath.exp(log);
            log += StrictMath.log((trials - k) / (k + 1.0) * p / (1 - p));
        }
        return sum;
    }

    /**
     * Source: H. L. Harter, Expected values of normal order statistics, Biometrika 48 (1961), table 1, the greatest of
     * n; from memory.
     */
    @ParameterizedTest
    @CsvSource({"2, 0.5642", "3, 0.8463", "5, 1.1630", "10, 1.5388", "20, 1.8675", "50, 2.2491", "100, 2.5076"})
    void theGreatestOfManyLiesAsFarOutAsTabulated(int n, double expected) {
        assertThat(Greatest.of(n).excess()).isCloseTo(expected, within(0.03));
    }

    @Test
    void oneReadingIsNoLuck() {
        assertThat(Greatest.of(1)).isEqualTo(new Greatest(0, 1));
        assertThat(Greatest.ofMovingMeans(1, 1)).isEqualTo(new Greatest(0, 1));
    }
}
