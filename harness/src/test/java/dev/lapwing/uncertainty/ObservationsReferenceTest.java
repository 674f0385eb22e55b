package dev.lapwing.uncertainty;

import static dev.lapwing.uncertainty.Observations.NORMAL;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** What few observations leave open of mean and scatter. */
class ObservationsReferenceTest {

    /** Source: JCGM 100:2008, table G.2: t for 95.45 % is 13.97 with one degree of freedom, 2.65 with five. */
    @Test
    void aMeanOfFewIsDoubtfulByStudentsT() {
        assertThat(new Observations(2, 7, 1, NORMAL).meanDoubt(2)).isCloseTo(13.97 / Math.sqrt(2), within(0.005));
        assertThat(new Observations(6, 7, 3, NORMAL).meanDoubt(2)).isCloseTo(2.65 * 3 / Math.sqrt(6), within(0.01));
    }

    /**
     * Source: tables of the chi-squared distribution, from memory: with ten degrees of freedom 2.5 % lie below 3.247
     * and 2.5 % above 20.483.
     */
    @Test
    void aScatterOfFewIsDoubtfulByChiSquared() {
        Observations few = new Observations(11, 0, 1, NORMAL);
        assertThat(few.leastStandard(1.959964)).isCloseTo(Math.sqrt(10 / 20.483), within(1e-4));
        assertThat(few.mostStandard(1.959964)).isCloseTo(Math.sqrt(10 / 3.247), within(1e-4));
    }

    /**
     * Source: closed form. Of a quantity that is ±a with probability p each and else 0 the variance is 2pa² and the
     * kurtosis 1/(2p); drawn often, the interval holds the true standard deviation as often as is said.
     */
    @Test
    void aScatterThatRestsOnAFewFarOutIsDoubtfulByThem() {
        SplittableRandom random = new SplittableRandom(3);
        double rare = 0.01;
        int trials = 2000;
        int held = 0;
        for (int trial = 0; trial < trials; trial++) {
            double[] drawn = random.doubles(1000)
                    .map(p -> p < rare ? 1 : p < 2 * rare ? -1 : 0)
                    .toArray();
            Observations told = Observations.of(drawn);
            double standard = Math.sqrt(2 * rare);
            held += told.leastStandard(1.959964) <= standard && standard <= told.mostStandard(1.959964) ? 1 : 0;
        }
        assertThat(new Proportion(held, trials).lower(0.999)).isGreaterThan(0.9);
        assertThat(new Proportion(held, trials).upper(0.999)).isLessThan(0.98);
    }

    @Test
    void oneObservationSaysNothingOfItsScatter() {
        assertThatThrownBy(() -> new Observations(1, 0, 0, NORMAL)).hasMessageContaining("1 observations say nothing");
    }
}
