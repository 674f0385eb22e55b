package dev.lapwing.uncertainty;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.Unit;
import java.math.BigDecimal;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** How figures and their uncertainties are printed, against the examples of the GUM and by what must always hold. */
class TwoDigitsReferenceTest {
    private static final TwoDigits OHMS = new TwoDigits(Unit.OHM);

    /** Source: JCGM 100:2008, 7.2.6: 10,47 mohm may be rounded up to 11 mohm. */
    @Test
    void anUncertaintyIsRoundedUp() {
        assertThat(OHMS.of(10.47e-3)).isEqualTo("0.011");
    }

    /** Source: JCGM 100:2008, 7.2.6: y = 10,057 62 ohm with 27 mohm is 10,058 ohm. */
    @Test
    void aFigureEndsWhereItsUncertaintyDoes() {
        assertThat(OHMS.of(27e-3)).isEqualTo("0.027");
        assertThat(OHMS.figure(10.05762, off(10.05762, 27e-3 / 2))).isEqualTo("10.058");
    }

    /** The GUM would round 28,05 to 28 by common sense; here no uncertainty is told smaller than it is. */
    @ParameterizedTest
    @CsvSource({
        "28.05, 29",
        "0.5, 0.50",
        "5, 5.0",
        "0.0995, 0.10",
        "0.099, 0.099",
        "9.96, 10",
        "99.1, 100",
        "1234, 1300",
        "0, 0",
        "1e-15, 0.000000001"
    })
    void twoDigitsAreTold(double uncertainty, String told) {
        assertThat(OHMS.of(uncertainty)).isEqualTo(told);
    }

    /** What only comes of turning a pressure into psi and back adds no digit: 0.17 psi stays 0.17 psi. */
    @Test
    void theUnitAddsNothing() {
        TwoDigits psi = new TwoDigits(Unit.PSI);
        for (int hundredths = 10; hundredths < 100; hundredths++) {
            String written = "0." + hundredths;
            assertThat(psi.of(Unit.PSI.toBase(Double.parseDouble(written)))).isEqualTo(written);
        }
    }

    @Test
    void theFigureIsOffByHalfOfItsLastDigitAtMostAndTheUncertaintyNeverToldSmaller() {
        SplittableRandom random = new SplittableRandom(726);
        for (int i = 0; i < 2000; i++) {
            double expanded = Math.pow(10, random.nextDouble(-7, 4));
            double value = expanded * random.nextDouble(-300, 300);
            Estimate estimate = off(value, expanded / 2);
            BigDecimal told = new BigDecimal(OHMS.of(estimate.expanded()));
            BigDecimal figure = new BigDecimal(OHMS.figure(value, estimate));

            assertThat(told.stripTrailingZeros().precision()).isLessThanOrEqualTo(2);
            assertThat(told.doubleValue()).isBetween(expanded * (1 - 1e-8), expanded * 1.1 * (1 + 1e-8));
            // The last of the two digits of the uncertainty, and the figure a multiple of it.
            BigDecimal last = BigDecimal.ONE.movePointLeft(lastDigit(told));
            assertThat(figure.remainder(last).signum()).isZero();
            assertThat(figure.subtract(new BigDecimal(value)).abs())
                    .isLessThanOrEqualTo(last.divide(BigDecimal.valueOf(2)));
        }
    }

    /** Decimals of the second digit: of 0.011 three, of 1300 two before the point. */
    private static int lastDigit(BigDecimal told) {
        BigDecimal first = told.stripTrailingZeros();
        return first.scale() + (first.precision() == 1 ? 1 : 0);
    }

    private static Estimate off(double value, double standard) {
        return new Estimate(
                value,
                Dimension.RESISTANCE,
                List.of(Component.of("x", 1, Input.stated(standard, Dimension.RESISTANCE))));
    }
}
