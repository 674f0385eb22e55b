package dev.lapwing.uncertainty;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

/** What few observations leave open of mean and scatter. */
class ObservationsReferenceTest {

    /** Source: JCGM 100:2008, table G.2: t for 95.45 % is 13.97 with one degree of freedom, 2.65 with five. */
    @Test
    void aMeanOfFewIsDoubtfulByStudentsT() {
        assertThat(new Observations(2, 7, 1).meanDoubt(2)).isCloseTo(13.97 / Math.sqrt(2), within(0.005));
        assertThat(new Observations(6, 7, 3).meanDoubt(2)).isCloseTo(2.65 * 3 / Math.sqrt(6), within(0.01));
    }

    /**
     * Source: tables of the chi-squared distribution, from memory: with ten degrees of freedom 2.5 % lie below 3.247
     * and 2.5 % above 20.483.
     */
    @Test
    void aScatterOfFewIsDoubtfulByChiSquared() {
        Observations few = new Observations(11, 0, 1);
        assertThat(few.leastStandard(1.959964)).isCloseTo(Math.sqrt(10 / 20.483), within(1e-4));
        assertThat(few.mostStandard(1.959964)).isCloseTo(Math.sqrt(10 / 3.247), within(1e-4));
    }

    @Test
    void oneObservationSaysNothingOfItsScatter() {
        assertThatThrownBy(() -> new Observations(1, 0, 0)).hasMessageContaining("1 observations say nothing");
    }
}
