package dev.lapwing.judge;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lapwing.finding.Limit;
import dev.lapwing.finding.Verdict;
import dev.lapwing.measure.Limits;
import dev.lapwing.measure.Words;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Conformity;
import dev.lapwing.uncertainty.DecisionRule;
import dev.lapwing.uncertainty.Estimate;
import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Conformance probabilities and guard bands by risk. Source: JCGM 106:2012, 7.3, 7.4 and 8.3, and its table 1. */
class RiskReferenceTest {

    /** 7.3.3: with one limit the probability is Φ((T − y)/u). Normal quantiles to six digits are common knowledge. */
    @ParameterizedTest
    @CsvSource({"1, 0.841345", "1.644854, 0.95", "1.959964, 0.975", "2, 0.977250", "0, 0.5", "-1, 0.158655"})
    void withOneLimitTheProbabilityIsTheNormalDistributions(double inside, double probability) {
        Conformity upper = upper(10).conformity(value(10 - 0.5 * inside));
        Conformity lower = Limits.atLeast(Dimension.TIME, 10).conformity(value(10 + 0.5 * inside));
        assertThat(upper.probability()).isCloseTo(probability, within(1e-6));
        assertThat(lower.probability()).isCloseTo(probability, within(1e-6));
        assertThat(upper.consumersRisk() + upper.producersRisk()).isEqualTo(1);
    }

    /**
     * Examples of 7.3 (from memory). A Zener diode that breaks down at -5.47 V with u = 0.05 V, of which at most
     * -5.40 V is asked, conforms with 0.92; a container that bursts at 509.7 kPa with u = 8.6 kPa, of which at least
     * 490 kPa is asked, with 0.99.
     */
    @Test
    void theExamplesOfADiodeAndOfAContainerAreAsPublished() {
        Estimate diode = new Estimate(-5.47, Dimension.VOLTAGE, List.of(new Component("a", 0.05)));
        Estimate container = new Estimate(509.7e3, Dimension.PRESSURE, List.of(new Component("a", 8.6e3)));
        assertThat(Limits.atMost(Dimension.VOLTAGE, -5.40).conformity(diode).probability())
                .isCloseTo(0.92, within(0.005));
        assertThat(Limits.atLeast(Dimension.PRESSURE, 490e3)
                        .conformity(container)
                        .probability())
                .isCloseTo(0.99, within(0.005));
    }

    /** 7.4: between two limits it is Φ((T_U − y)/u) − Φ((T_L − y)/u); at the middle of ± 2u it is 95.45 %. */
    @Test
    void betweenTwoLimitsBothTailsAreOutside() {
        Limit limit = Limits.between(Dimension.TIME, 9, 11);
        assertThat(limit.conformity(value(10)).probability()).isCloseTo(0.9545, within(5e-6));
        assertThat(limit.conformity(value(11)).probability()).isCloseTo(0.5 - 0.0000317, within(1e-6));
    }

    /** 8.3.2.3, 9.5: a guard band of 2.326 u leaves a risk of 1 %, one of 1.645 u 5 %, one of 3.090 u 0.1 %. */
    @ParameterizedTest
    @CsvSource({"0.01, 2.326348", "0.05, 1.644854", "0.001, 3.090232"})
    void theGuardBandOfARiskIsItsNormalQuantile(double risk, double factor) {
        Limit limit =
                Limits.of(Dimension.TIME, OptionalDouble.empty(), OptionalDouble.of(10), DecisionRule.guarded(risk));
        double w = factor * 0.5;
        assertThat(decide(10 - w - 1e-5, limit)).isEqualTo(Verdict.PASS);
        assertThat(decide(10 - w + 1e-5, limit)).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(decide(10 + w - 1e-5, limit)).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(decide(10 + w + 1e-5, limit)).isEqualTo(Verdict.FAIL);
    }

    /**
     * The worked example of 9.5.4, as read second-hand: balls whose error is spread as gamma with shape 4 and scale
     * 0.25 µm are accepted up to 2 µm, measured with u = 0.25 µm. Of the balls 4.2 % are outside; 0.8 % are outside and
     * accepted; with the acceptance limit at 1.67 µm 0.1 % are. Further digits were worked out anew from its figures.
     * Metres stand for micrometres.
     */
    @Test
    void theExampleOfBallBearings() {
        assertThat(accepted(0, 2, 12, 1e9)).isCloseTo(0.0423801, within(1e-7));
        assertThat(accepted(0.25, 2, 6, 2)).isCloseTo(0.0080191, within(1e-7));
        assertThat(accepted(0.25, 2, 6, 1.6718288)).isCloseTo(0.001, within(1e-8));
        assertThat(1 - accepted(0, 2, 12, 1e9) - accepted(0.25, 0, 2, 2)).isCloseTo(0.01744, within(1e-5));
        assertThat(1 - accepted(0, 2, 12, 1e9) - accepted(0.25, 0, 2, 1.6718288))
                .isCloseTo(0.07549, within(1e-5));
    }

    /** Share of balls with an error from one figure to another that are accepted up to a limit, by Simpson's rule. */
    private static double accepted(double u, double from, double to, double accepted) {
        int steps = 4000;
        double step = (to - from) / steps;
        double sum = 0;
        for (int i = 0; i <= steps; i++) {
            double error = from + i * step;
            Estimate read = new Estimate(error, Dimension.LENGTH, List.of(new Component("a", u)));
            double density = 256.0 / 6 * Math.pow(error, 3) * Math.exp(-4 * error);
            double weight = i == 0 || i == steps ? 1 : i % 2 == 1 ? 4 : 2;
            sum += weight
                    * density
                    * Limits.atMost(Dimension.LENGTH, accepted).conformity(read).probability();
        }
        return sum * step / 3;
    }

    /** Without doubt there is no risk either way. */
    @Test
    void whatIsCountedIsInsideOrOutside() {
        Estimate two = new Estimate(2, Dimension.COUNT, List.of());
        assertThat(Limits.atMost(Dimension.COUNT, 2).conformity(two).probability())
                .isEqualTo(1);
        assertThat(Limits.atMost(Dimension.COUNT, 1).conformity(two).probability())
                .isZero();
    }

    private static Limit upper(double upper) {
        return Limits.atMost(Dimension.TIME, upper);
    }

    private static Estimate value(double value) {
        return new Estimate(value, Dimension.TIME, List.of(new Component("a", 0.5)));
    }

    private static Verdict decide(double value, Limit limit) {
        return Decision.of(value(value), limit, new Words(PressureDisplay.BAR)).verdict();
    }
}
