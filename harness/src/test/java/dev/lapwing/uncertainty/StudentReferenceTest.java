package dev.lapwing.uncertainty;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Student's t against published tables. */
class StudentReferenceTest {

    /** Source: JCGM 100:2008, table G.2: t for a fraction p and degrees of freedom; the last digit is that printed. */
    @ParameterizedTest
    @CsvSource({
        "0.6827, 1, 1.84", "0.95, 1, 12.71", "0.9545, 1, 13.97", "0.9973, 5, 5.51", "0.90, 20, 1.72",
        "0.9545, 2, 4.53", "0.9545, 3, 3.31", "0.9545, 4, 2.87", "0.9545, 5, 2.65", "0.9545, 10, 2.28",
        "0.9545, 20, 2.13", "0.9545, 50, 2.05", "0.9545, 100, 2.025", "0.99, 16, 2.92"
    })
    void factorsAreThoseOfTheGuidesTable(double fraction, double freedom, double t) {
        double half = t == 2.025 ? 0.0005 : 0.005;
        assertThat(Student.quantile((1 + fraction) / 2, freedom)).isCloseTo(t, within(half + 1e-9));
    }

    /** Source: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.2, critical values of Student's t. */
    @ParameterizedTest
    @CsvSource({"0.95, 10, 1.812", "0.975, 10, 2.228", "0.975, 20, 2.086", "0.995, 5, 4.032"})
    void criticalValuesAreThoseOfTheHandbook(double probability, double freedom, double t) {
        assertThat(Student.quantile(probability, freedom)).isCloseTo(t, within(0.0005));
        assertThat(Student.probability(t, freedom)).isCloseTo(probability, within(5e-5));
    }

    /** Source: closed form. With one degree of freedom t is Cauchy's: tan(π(p − ½)); with two it is algebraic. */
    @ParameterizedTest
    @CsvSource({"0.6", "0.9", "0.975", "0.9772", "0.999"})
    void oneAndTwoDegreesOfFreedomHaveAClosedForm(double p) {
        assertThat(Student.quantile(p, 1)).isCloseTo(StrictMath.tan(Math.PI * (p - 0.5)), within(1e-7));
        double a = 4 * p * (1 - p);
        assertThat(Student.quantile(p, 2)).isCloseTo((2 * p - 1) * Math.sqrt(2 / a), within(1e-7));
    }

    /** Source: JCGM 100:2008, table G.2, last row, and G.6.6: 95.45 % of a normal distribution lie within k = 2. */
    @Test
    void manyDegreesOfFreedomMakeTheFactorTwo() {
        assertThat(Student.coverageFactor(1e9)).isEqualTo(2);
        assertThat(Student.coverageFactor(999_999)).isCloseTo(2, within(5e-6));
        assertThat(2 * Student.probability(2, 1e9) - 1).isCloseTo(Student.LEVEL, within(1e-14));
    }
}
