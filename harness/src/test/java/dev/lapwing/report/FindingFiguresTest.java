package dev.lapwing.report;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.evidence.SamplePlan;
import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Limit;
import dev.lapwing.finding.Verdict;
import dev.lapwing.measure.Words;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.quantity.Unit;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.DecisionRule;
import dev.lapwing.uncertainty.Estimate;
import dev.lapwing.uncertainty.Input;
import dev.lapwing.uncertainty.MonteCarlo;
import dev.lapwing.uncertainty.Propagation;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;

class FindingFiguresTest {

    private static FindingFigures figures(Estimate measured, Limit limit, PressureDisplay display) {
        boolean alike = measured.dimension() == limit.dimension();
        return FindingFigures.of(
                new Finding(
                        "one",
                        "it does",
                        "a.yaml:1:1",
                        Verdict.FAIL,
                        "it does not",
                        Optional.of(measured),
                        "it",
                        Optional.of(limit),
                        alike ? OptionalDouble.of(limit.margin(measured.value())) : OptionalDouble.empty(),
                        Optional.empty(),
                        List.of()),
                display);
    }

    private static Estimate estimate(double value, Dimension dimension, double expanded) {
        return new Estimate(value, dimension, List.of(new Component("one", expanded / 2)));
    }

    private static Estimate psi(double value, double expanded) {
        return estimate(SamplePlan.psi(value), Dimension.PRESSURE, SamplePlan.psi(expanded));
    }

    @Test
    void aLevelThatWasReachedWhereATimeWasAskedKeepsItsOwnUnit() {
        FindingFigures figures =
                figures(psi(24.65, 0.17), SamplePlan.between("ep-rise-time", 2, 3.3), PressureDisplay.PSI);

        assertThat(figures.measured()).isEqualTo("24.65 ± 0.17 psi");
        assertThat(figures.limit()).isEqualTo("2 to 3.3 s");
        assertThat(figures.margin()).isEmpty();
    }

    /** What was drawn has two sides, and its table says how it was drawn. */
    @Test
    void aSkewedIntervalPrintsBothSides() {
        Input level = Input.stated(0.1, Dimension.TIME);
        Propagation drawn = new MonteCarlo(
                        Map.of("calibration/P1", level), z -> 2.5 + z[0] * (z[0] > 0 ? 0.2 : 0.05), 4711)
                .propagate();
        Estimate skewed = new Estimate(
                2.5, Dimension.TIME, List.of(Component.of("calibration/P1", 1, level)), Optional.of(drawn));
        FindingFigures figures = figures(skewed, SamplePlan.atMost("rise", 3), PressureDisplay.PSI);
        assertThat(figures.measured()).matches("2\\.50 \\+ 0\\.4[01] - 0\\.1[01] s");
        String table = BudgetTable.of("time", skewed, figures.ofValue(), PressureDisplay.PSI)
                .toString();
        assertThat(table)
                .contains("interval of 95.45 %")
                .contains("Propagated by Monte Carlo, JCGM 101: M = 20\u00a0000 draws, seed 4711")
                .doesNotContain("expanded with k");
    }

    /** Each side to two digits, in the sentence as in the table; value and margin to the finer one. */
    @Test
    void aSideThatIsMuchWiderLeavesValueAndMarginTheirDigits() {
        Input level = Input.stated(1, Dimension.PRESSURE);
        Propagation drawn = new MonteCarlo(
                        Map.of("calibration/P1", level), z -> 6.347 + z[0] * (z[0] > 0 ? 0.83 : 0.0093), 4711)
                .propagate();
        Estimate skewed = new Estimate(
                6.347, Dimension.TIME, List.of(Component.of("calibration/P1", 1, level)), Optional.of(drawn));
        Figures figures = new Figures(Unit.SECOND);
        assertThat(figures.measured(skewed)).isEqualTo("6.347 + 1.7 - 0.019 s");
        assertThat(figures.margin(-2.347, skewed)).isEqualTo("-2.347 s");
        assertThat(new Words(PressureDisplay.PSI).estimate(skewed))
                .isEqualTo("6.347 s + 1.7 s - 0.019 s (95.45 %, Monte Carlo)");
    }

    /** What is dumped is told for each second, what leaks for each minute, as its limit is written. */
    @Test
    void aRateIsToldByTheSecondAndALeakByTheMinute() {
        double psi = SamplePlan.psi(1);
        Limit dump = rate("dump-rate", Dimension.PRESSURE_RATE, OptionalDouble.of(90 * psi), OptionalDouble.empty());
        FindingFigures falls =
                figures(estimate(125.3 * psi, Dimension.PRESSURE_RATE, 1.2 * psi), dump, PressureDisplay.PSI);
        assertThat(falls.measured()).isEqualTo("125.3 ± 1.2 psi/s");
        assertThat(falls.limit()).isEqualTo("≥ 90 psi/s");
        assertThat(falls.margin()).isEqualTo("+35.3 psi/s");
        Limit tight = rate("pipe-leak", Dimension.LEAK_RATE, OptionalDouble.empty(), OptionalDouble.of(psi / 60));
        FindingFigures leaks =
                figures(estimate(0.2 / 60 * psi, Dimension.LEAK_RATE, 0.05 / 60 * psi), tight, PressureDisplay.PSI);
        assertThat(leaks.measured()).isEqualTo("0.200 ± 0.050 psi/min");
        assertThat(leaks.limit()).isEqualTo("≤ 1 psi/min");
        assertThat(figures(estimate(2e5, Dimension.PRESSURE_RATE, 2e3), dump, PressureDisplay.BAR)
                        .measured())
                .isEqualTo("2.000 ± 0.020 bar/s");
    }

    private static Limit rate(String figure, Dimension dimension, OptionalDouble lower, OptionalDouble upper) {
        DecisionRule rule = DecisionRule.GUARDED;
        return new Limit(figure, dimension, lower, upper, rule, OptionalDouble.empty(), "a test", "a.yaml:1:1");
    }

    @Test
    void theValueEndsWhereItsUncertaintyDoes() {
        Limit limit = SamplePlan.atMost("ep-ceiling", SamplePlan.psi(53));

        assertThat(figures(psi(49.770123, 0.1634), limit, PressureDisplay.PSI).measured())
                .isEqualTo("49.77 ± 0.17 psi");
        assertThat(figures(psi(49.77, 1.234), limit, PressureDisplay.PSI).measured())
                .isEqualTo("49.8 ± 1.3 psi");
        assertThat(figures(psi(49.77, 12.34), limit, PressureDisplay.PSI).measured())
                .isEqualTo("50 ± 13 psi");
        assertThat(figures(psi(-0.001, 0.17), limit, PressureDisplay.PSI).measured())
                .isEqualTo("0.00 ± 0.17 psi");
    }

    /** What was written in the reader's unit keeps its digits; what was not takes none that nobody wrote. */
    @Test
    void aLimitPrintsAsItWasWritten() {
        Limit written = SamplePlan.atMost("ceiling", 101_325);
        assertThat(figures(psi(14, 0.2), written, PressureDisplay.KPA).limit()).isEqualTo("≤ 101.325 kPa");
        assertThat(figures(psi(14, 0.2), written, PressureDisplay.BAR).limit()).isEqualTo("≤ 1.01325 bar");
        assertThat(figures(psi(14, 0.2), written, PressureDisplay.PSI).limit()).isEqualTo("≤ 14.7 psi");
        Limit even = SamplePlan.between("difference", SamplePlan.psi(-2), SamplePlan.psi(2));
        assertThat(figures(psi(1, 0.2), even, PressureDisplay.BAR).limit()).isEqualTo("-0.1379 to 0.1379 bar");
    }

    /** 1 psi is 0.0689476 bar (NIST SP 811, table B.8). */
    @Test
    void pressuresComeInTheUnitThatTheReaderChose() {
        FindingFigures figures =
                figures(psi(50, 0.2), SamplePlan.atMost("ep-ceiling", SamplePlan.psi(53)), PressureDisplay.BAR);

        assertThat(figures.measured()).isEqualTo("3.447 ± 0.014 bar");
        assertThat(figures.limit()).isEqualTo("≤ 3.654 bar");
        assertThat(figures.margin()).isEqualTo("+0.207 bar");
    }

    @Test
    void shortTimesComeInMillisecondsAndMarginsCarryTheirSign() {
        FindingFigures figures = figures(
                estimate(0.6471, Dimension.TIME, 0.0242), SamplePlan.atMost("ep-first-time", 0.6), PressureDisplay.PSI);

        assertThat(figures.measured()).isEqualTo("647 ± 25 ms");
        assertThat(figures.limit()).isEqualTo("≤ 600 ms");
        assertThat(figures.margin()).isEqualTo("-47 ms");
    }

    @Test
    void aCountNeedsNoUnitAndNoUncertainty() {
        FindingFigures figures = figures(
                new Estimate(3, Dimension.COUNT, List.of()),
                SamplePlan.atMost("lapping-pulses", 2),
                PressureDisplay.PSI);

        assertThat(figures.measured()).isEqualTo("3");
        assertThat(figures.limit()).isEqualTo("≤ 2");
        assertThat(figures.margin()).isEqualTo("-1");
    }
}
