package dev.lapwing.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.quantity.Unit;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Estimate;
import dev.lapwing.uncertainty.Input;
import dev.lapwing.uncertainty.Propagation;
import dev.lapwing.uncertainty.Propagation.Quantile;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class BudgetTableTest {
    private static final Component LEVEL = new Component("calibration/P1", 0.1);

    @Test
    void whatSettledSaysWithinWhat() {
        assertThat(table(drawn(20_000, 0.0005)))
                .contains("M = 20\u00a0000 draws, seed 4711, settled within 0.00050\u00a0s.")
                .doesNotContain("did not settle");
    }

    /** With u = 0.1 s they were to settle within 0.005 s. */
    @Test
    void whatDidNotSettleSaysSoAndHowFarItCame() {
        assertThat(table(drawn(2_000_000, 0.023)))
                .contains("M = 2\u00a0000\u00a0000 draws, seed 4711, the most that are made. They did not settle to"
                        + " 0.0050\u00a0s: value and ends of the interval may still be off by 0.023\u00a0s,"
                        + " and the interval is that much longer at either end.")
                .contains("+ 0.23 s \u2212 0.23 s")
                .doesNotContain("settled within");
        assertThat(drawn(2_000_000, 0.023).above()).isCloseTo(0.2 + 0.023, within(1e-12));
        assertThat(drawn(2_000_000, 0.023).below()).isCloseTo(0.2 + 0.023, within(1e-12));
        assertThat(table(drawn(2_000_000, 0.005))).contains("settled within 0.0050\u00a0s.");
    }

    /** Of 1, 0.05 and 0.001 the squares are 99.75 %, 0.25 % and 0.0001 % of the whole. */
    @Test
    void noSourceThatAddsHasAShareOfNothingAndNoneIsAllBesideIt() {
        Estimate measured = new Estimate(
                5,
                Dimension.TIME,
                List.of(
                        new Component("calibration/P1", 1),
                        new Component("clock/bench", 0.05),
                        new Component("drift/P1", 0.001),
                        new Component("spacing", 0)));
        assertThat(table(measured))
                .containsSubsequence("&gt; 99 %", "&lt; 1 %", "&lt; 1 %", ">0 %")
                .doesNotContain("100 %");
        assertThat(table(new Estimate(5, Dimension.TIME, List.of(LEVEL)))).contains("100 %");
    }

    @Test
    void aSlightFigureIsToldByAPowerOfTenSoThatItsTableFitsThePage() {
        Input clock = Input.within(2.1e-5, Dimension.CLOCK_RATE);
        Estimate measured = new Estimate(5, Dimension.TIME, List.of(LEVEL, Component.of("clock/bench", -0.72, clock)));
        assertThat(table(measured)).contains("\u22127.2·10⁻⁷ s per ppm");
        assertThat(table(new Estimate(5, Dimension.TIME, List.of(new Component("spacing", 0.000_012)))))
                .contains("1.2·10⁻⁵ s");
        assertThat(table(new Estimate(5, Dimension.TIME, List.of(new Component("spacing", 0.000_12)))))
                .contains("0.00012 s");
    }

    private static String table(Estimate measured) {
        return BudgetTable.of("time", measured, new Figures(Unit.SECOND), PressureDisplay.PSI)
                .toString();
    }

    /** Normal about 2.5 s with 0.1 s. */
    private static Estimate drawn(long trials, double tolerance) {
        List<Quantile> quantiles = IntStream.rangeClosed(-28, 28)
                .mapToObj(i -> new Quantile(i / 8.0, 2.5 + 0.1 * i / 8.0))
                .toList();
        Propagation drawn = new Propagation(4711, trials, 2.5, 0.1, tolerance, 0, 0, quantiles);
        return new Estimate(2.5, Dimension.TIME, List.of(LEVEL), Optional.of(drawn));
    }
}
