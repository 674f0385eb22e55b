package dev.lapwing.finding;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lapwing.quantity.Dimension;
import dev.lapwing.uncertainty.DecisionRule;
import dev.lapwing.uncertainty.Estimate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** What no finding may be. */
class FindingTest {
    private static final Optional<Estimate> TIME = Optional.of(new Estimate(1, Dimension.TIME, List.of()));
    private static final Limit SECONDS = limit(Dimension.TIME);

    @Test
    void thereIsNoPassWithoutAMeasurement() {
        assertThatThrownBy(() -> finding(Verdict.PASS, "it was well", Optional.empty(), SECONDS))
                .hasMessage("no pass without a measurement: x");
        assertThat(finding(Verdict.PASS, "it was well", TIME, SECONDS).verdict())
                .isEqualTo(Verdict.PASS);
    }

    @ParameterizedTest
    @EnumSource
    void everyFindingSaysWhy(Verdict verdict) {
        assertThatThrownBy(() -> finding(verdict, "", TIME, SECONDS)).hasMessage("finding x does not say why");
    }

    @ParameterizedTest
    @EnumSource
    void onlyWhatIsMeasuredAndJudgedDecides(Verdict verdict) {
        assertThat(verdict.decides()).isEqualTo(verdict == Verdict.PASS || verdict == Verdict.FAIL);
        assertThat(verdict.text()).isLowerCase();
    }

    @Test
    void howLikelyItConformsIsToldOfAValueOfTheLimitsKindAlone() {
        assertThat(finding(Verdict.FAIL, "late", TIME, SECONDS).conformity()).isPresent();
        assertThat(finding(Verdict.FAIL, "late", TIME, limit(Dimension.PRESSURE))
                        .conformity())
                .isEmpty();
        assertThat(finding(Verdict.FAIL, "never", Optional.empty(), SECONDS).conformity())
                .isEmpty();
    }

    private static Finding finding(Verdict verdict, String because, Optional<Estimate> measured, Limit limit) {
        return new Finding(
                "x",
                "it is quick",
                "test.yaml:1:1",
                verdict,
                because,
                measured,
                "time",
                Optional.of(limit),
                OptionalDouble.of(1),
                Optional.empty(),
                List.of());
    }

    private static Limit limit(Dimension dimension) {
        return new Limit(
                "quick",
                dimension,
                OptionalDouble.empty(),
                OptionalDouble.of(2),
                DecisionRule.GUARDED,
                OptionalDouble.empty(),
                "a test",
                "test.yaml:1:1");
    }
}
