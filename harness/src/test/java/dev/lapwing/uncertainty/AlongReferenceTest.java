package dev.lapwing.uncertainty;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lapwing.quantity.Dimension;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * What is stated of the difference of two readings, against what is known of it when the calibration itself is: a
 * straight line whose intercept and slope are known with their correlation.
 *
 * <p>Source: JCGM 100:2008 (GUM), annex H.3, calibration of a thermometer: correction b(t) = y₁ + y₂·(t − 20 °C), with
 * u(y₁) = 0.0029 °C, u(y₂) = 0.00067, r(y₁, y₂) = −0.930, for readings of 21.521 °C to 26.511 °C (table H.6); u(b) at
 * 30 °C is published as 0.0041 °C. Differences follow by the law of propagation, 5.2.2, equation 13.
 */
class AlongReferenceTest {
    private static final double ONE = 0.0029;
    private static final double TWO = 0.00067;
    private static final double R = -0.930;
    private static final double LOW = 21.521;
    private static final double HIGH = 26.511;

    /** The correction at t, by two sources that are independent: what of y₂ goes with y₁, and the rest of y₂. */
    private static Estimate correction(double t) {
        double x = t - 20;
        return new Estimate(
                -0.1712 + 0.00218 * x,
                Dimension.RATIO,
                List.of(
                        new Component("with y1", ONE + x * R * TWO),
                        new Component("y2 alone", x * TWO * Math.sqrt(1 - R * R))));
    }

    @Test
    void thePublishedPredictionIsMet() {
        assertThat(correction(30).value()).isCloseTo(-0.1494, within(0.00005));
        assertThat(correction(30).standardUncertainty()).isCloseTo(0.0041, within(0.00005));
    }

    /** u(b(t₁) − b(t₂)) = |t₁ − t₂|·u(y₂), as the intercept leaves it with all that goes with it. */
    @ParameterizedTest
    @CsvSource({"20, 30", "21.521, 26.511", "22.012, 25.002", "24.513, 24.513"})
    void theDifferenceOfTwoPredictionsOwesToTheSlopeAlone(double early, double late) {
        assertThat(correction(late).minus(correction(early)).standardUncertainty())
                .isCloseTo((late - early) * TWO, within(1e-15));
    }

    /**
     * Of the thermometer's range only two figures told on: the greatest u(b) in it, and u of its span. Every difference
     * within is then stated no better than the law of propagation has it, and the whole of it as it has it.
     */
    @Test
    void twoFiguresOfTheLineCoverEveryDifference() {
        double standard =
                Math.max(correction(LOW).standardUncertainty(), correction(HIGH).standardUncertainty());
        Along along = Along.of(LOW, HIGH, (HIGH - LOW) * TWO, standard);
        for (double early = LOW; early < HIGH; early += 0.499) {
            for (double late = early; late < HIGH; late += 0.499) {
                double published = correction(late).minus(correction(early)).standardUncertainty();
                assertThat(difference(along, standard, early, late)).isGreaterThanOrEqualTo(published - 1e-15);
            }
        }
        assertThat(difference(along, standard, LOW, HIGH)).isCloseTo((HIGH - LOW) * TWO, within(1e-12));
    }

    /** By equation 16, with r = −1 for both ends: no difference can be known worse. */
    @Test
    void withoutAFigureBothEndsAreOffOppositely() {
        double standard = correction(HIGH).standardUncertainty();
        Along along = Along.of(LOW, HIGH, 2 * standard, standard);
        assertThat(difference(along, standard, LOW, HIGH)).isCloseTo(2 * standard, within(1e-15));
        assertThat(difference(along, standard, LOW, LOW)).isZero();
    }

    /** JCGM 100:2008, F.1.2.3: whatever the span, a reading is as good as its certificate says, at every value. */
    @ParameterizedTest
    @CsvSource({"0", "0.001", "0.004", "1"})
    void aReadingIsAsGoodAsStatedEverywhere(double span) {
        Along along = Along.of(LOW, HIGH, span, ONE);
        for (double t = LOW - 1; t < HIGH + 1; t += 0.25) {
            assertThat(Math.hypot(along.alike(t), along.along(t))).isCloseTo(1, within(1e-12));
        }
    }

    /** An error that is all gain: u·2(x − middle)/range, its difference over a share t of the range 2u·t. */
    @ParameterizedTest
    @CsvSource({"0.01", "0.1", "0.25", "0.5", "0.75", "1"})
    void aGainThatIsOffIsCoveredAtEveryDistance(double share) {
        Along along = Along.of(LOW, HIGH, 2 * ONE, ONE);
        double late = LOW + share * (HIGH - LOW);
        double told = difference(along, ONE, LOW, late);
        assertThat(told).isBetween(2 * ONE * share - 1e-15, Math.PI / 2 * 2 * ONE * share);
    }

    private static double difference(Along along, double standard, double early, double late) {
        return standard * Math.hypot(along.alike(late) - along.alike(early), along.along(late) - along.along(early));
    }
}
