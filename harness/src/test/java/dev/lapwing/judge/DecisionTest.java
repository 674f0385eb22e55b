package dev.lapwing.judge;

import static dev.lapwing.measure.HandMade.PSI;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lapwing.finding.Limit;
import dev.lapwing.finding.Verdict;
import dev.lapwing.measure.Limits;
import dev.lapwing.measure.Words;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.DecisionRule;
import dev.lapwing.uncertainty.Estimate;
import dev.lapwing.uncertainty.Input;
import dev.lapwing.uncertainty.Model;
import dev.lapwing.uncertainty.MonteCarlo;
import dev.lapwing.uncertainty.Propagation;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class DecisionTest {

    @Test
    void aBandNarrowerThanTheUncertaintyPassesNothing() {
        Decision decision = decide(70 * PSI, 0.6 * PSI, Limits.psi(69, 71));
        assertThat(decision.verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(decision.words()).contains("too wide", "1.2 psi", "1 psi");
    }

    @Test
    void moreDoubtThanAgreedPassesNothing() {
        Limit agreed = agreed(DecisionRule.GUARDED);
        assertThat(decide(1, 0.02, agreed).verdict()).isEqualTo(Verdict.PASS);
        Decision wide = decide(1, 0.03, agreed);
        assertThat(wide.verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(wide.words()).contains("too wide");
        assertThat(decide(1, 0.03, agreed(DecisionRule.SIMPLE)).verdict()).isEqualTo(Verdict.INCONCLUSIVE);
    }

    /** What stands between a measurement and its verdict is named where one source is most of it. */
    @Test
    void theSourceInTheWayIsNamed() {
        Estimate near = new Estimate(
                49.9 * PSI,
                Dimension.PRESSURE,
                List.of(new Component("calibration/BC4", 0.2 * PSI), new Component("noise/BC4/1-2 s", 0.05 * PSI)));
        assertThat(Decision.of(near, Limits.psi(0, 50), words()).words())
                .isEqualTo("conditional pass, inside by 0.1 psi, less than the uncertainty;"
                        + " most of the uncertainty is calibration of BC4 (94 %):"
                        + " calibrate it more closely, or use a better transducer");
    }

    /** Four alike are a quarter each. */
    @Test
    void whereNoSourceIsMostOfItTheGreatestPartIsNamed() {
        List<Component> parts = List.of(
                new Component("stamp/BC4", 0.26),
                new Component("drift/BC4", 0.24),
                new Component("noise/BC4/1-2 s", 0.25),
                new Component("clock/bench", 0.25));
        assertThat(decide(new Estimate(3.9, Dimension.TIME, parts), Limits.atMost(Dimension.TIME, 4))
                        .words())
                .endsWith("; the greatest part of the uncertainty is stamp of BC4 (27 %):"
                        + " use a bench that stamps more closely");
    }

    @Test
    void aChosenRiskSaysHowLikelyTheVerdictWouldBeWrong() {
        Limit limit =
                Limits.of(Dimension.TIME, OptionalDouble.empty(), OptionalDouble.of(10), DecisionRule.guarded(0.01));
        Decision decision = decide(9, 0.5, limit);
        assertThat(decision.verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(decision.words()).contains("wrong with a chance of 2.3 % where at most 1 % was agreed");
    }

    /** At 2.3262 u from the limit: a chance of 1.0004 %. */
    @Test
    void aChanceThatIsBarelyMoreThanAgreedIsNotToldAsIfItWereThat() {
        Limit limit =
                Limits.of(Dimension.TIME, OptionalDouble.empty(), OptionalDouble.of(10), DecisionRule.guarded(0.01));
        assertThat(decide(10 - 2.3262 * 0.5, 0.5, limit).words())
                .contains("wrong with a chance of a little over 1 % where at most 1 % was agreed");
    }

    @Test
    void onlyTheWholeIsAHundredPercent() {
        assertThat(DecisionRule.percent(0.0025)).isEqualTo("0.25 %");
        assertThat(DecisionRule.percent(0.943)).isEqualTo("94 %");
        assertThat(DecisionRule.percent(0.9978)).isEqualTo("99.78 %");
        assertThat(DecisionRule.percent(0.99999)).isEqualTo("99.999 %");
        assertThat(DecisionRule.percent(1)).isEqualTo("100 %");
        assertThat(DecisionRule.percent(0)).isEqualTo("0 %");
    }

    @Test
    void moreDoubtThanAgreedSavesNothingThatIsFarOutside() {
        assertThat(decide(30, 0.5, agreed(DecisionRule.GUARDED)).verdict()).isEqualTo(Verdict.FAIL);
    }

    @Test
    void aCountOnTheLimitPasses() {
        Limit two = Limits.atMost(Dimension.COUNT, 2);
        assertThat(Decision.of(new Estimate(2, Dimension.COUNT, List.of()), two, words())
                        .verdict())
                .isEqualTo(Verdict.PASS);
        assertThat(Decision.of(new Estimate(3, Dimension.COUNT, List.of()), two, words())
                        .verdict())
                .isEqualTo(Verdict.FAIL);
    }

    /** 2.5 s, and 95.45 % of it between 2.4 s and 2.9 s: each end of a limit has the side that points to it. */
    @Test
    void aSkewedIntervalIsHeldAgainstALimitByItsSide() {
        Estimate skewed = skewed();
        assertThat(decide(skewed, Limits.between(Dimension.TIME, 2.39, 2.91)).verdict())
                .isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(decide(skewed, Limits.between(Dimension.TIME, 2.39, 3.5)).verdict())
                .isEqualTo(Verdict.PASS);
        assertThat(decide(skewed, Limits.atMost(Dimension.TIME, 2.85)).verdict())
                .isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(decide(skewed, Limits.atMost(Dimension.TIME, 2.91)).verdict())
                .isEqualTo(Verdict.PASS);
        assertThat(decide(skewed, Limits.atMost(Dimension.TIME, 2.39)).verdict())
                .isEqualTo(Verdict.FAIL);
        assertThat(decide(skewed, Limits.atLeast(Dimension.TIME, 2.85)).verdict())
                .isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(decide(skewed, Limits.atLeast(Dimension.TIME, 2.91)).verdict())
                .isEqualTo(Verdict.FAIL);
    }

    /** Source: the distribution it was made of: half of it is below 2.5 s, 97.72 % below 2.9 s. */
    @Test
    void aSkewedDistributionHasTheConformanceProbabilityOfItsDraws() {
        assertThat(Limits.atMost(Dimension.TIME, 2.5).conformity(skewed()).probability())
                .isCloseTo(0.5, within(0.01));
        assertThat(Limits.atMost(Dimension.TIME, 2.9).conformity(skewed()).probability())
                .isCloseTo(0.9772, within(0.002));
        assertThat(Limits.between(Dimension.TIME, 2.4, 2.9).conformity(skewed()).probability())
                .isCloseTo(0.9545, within(0.003));
        Limit risk =
                Limits.of(Dimension.TIME, OptionalDouble.empty(), OptionalDouble.of(2.95), DecisionRule.guarded(0.02));
        assertThat(decide(skewed(), risk).verdict()).isEqualTo(Verdict.PASS);
        assertThat(Decision.of(skewed().linear(), risk, words()).verdict()).isEqualTo(Verdict.PASS);
    }

    /** Normal on either side of its middle, twice or half a tenth wide. */
    private static Estimate skewed() {
        Model model = z -> 2.5 + z[0] * (z[0] > 0 ? 0.2 : 0.05);
        Map<String, Input> sources = Map.of("calibration/P1", Input.stated(1, Dimension.PRESSURE));
        Propagation drawn = new MonteCarlo(sources, model, 1).propagate();
        return new Estimate(
                2.5, Dimension.TIME, List.of(new Component("calibration/P1", drawn.standard())), Optional.of(drawn));
    }

    private static Decision decide(Estimate measured, Limit limit) {
        return Decision.of(measured, limit, words());
    }

    /** The nearer to the limit the less the margin, and a verdict never gets better on the way out. */
    @Test
    void marginAndVerdictFallTowardsTheLimit() {
        SplittableRandom random = new SplittableRandom(1);
        for (int i = 0; i < 1000; i++) {
            double u = random.nextDouble() * 0.4;
            Limit limit = Limits.between(Dimension.TIME, 0, 4);
            double near = 2 + 4 * random.nextDouble();
            double far = near + random.nextDouble();
            Decision one = decide(near, u, limit);
            Decision other = decide(far, u, limit);
            assertThat(other.margin()).as("draw %d", i).isLessThanOrEqualTo(one.margin());
            assertThat(other.verdict()).as("draw %d", i).isGreaterThanOrEqualTo(one.verdict());
        }
    }

    @Test
    void figuresAreToldInTheReadersUnit() {
        Limit limit = Limits.psi(0, 50);
        assertThat(decide(49 * PSI, 0.1 * PSI, limit).words()).isEqualTo("inside by 1 psi");
        Estimate measured = new Estimate(49 * PSI, Dimension.PRESSURE, List.of(new Component("a", 0.1 * PSI)));
        Words bar = new Words(PressureDisplay.BAR);
        assertThat(bar.estimate(measured)).isEqualTo("3.378 bar ± 0.014 bar (k = 2)");
        assertThat(bar.limit(limit)).isEqualTo("between 0 bar and 3.447 bar");
        assertThat(bar.limit(Limits.between(Dimension.TIME, -0.25, 0.25))).isEqualTo("within ±250 ms");
    }

    @Test
    void aMarginIsToldInTheUnitOfItsLimit() {
        assertThat(decide(6.82, 0.01, Limits.between(Dimension.TIME, 0, 6)).words())
                .isEqualTo("outside by 0.82 s");
        assertThat(decide(0.018, 0.0001, Limits.between(Dimension.TIME, 0, 0.02))
                        .words())
                .isEqualTo("inside by 2 ms");
    }

    private static Limit agreed(DecisionRule rule) {
        return new Limit(
                "f",
                Dimension.TIME,
                OptionalDouble.empty(),
                OptionalDouble.of(3),
                rule,
                OptionalDouble.of(0.05),
                "a test",
                "t:1:1");
    }

    private static Words words() {
        return new Words(PressureDisplay.PSI);
    }

    private static Decision decide(double value, double u, Limit limit) {
        return Decision.of(new Estimate(value, limit.dimension(), List.of(new Component("a", u))), limit, words());
    }
}
