package dev.lapwing.report;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.evidence.RunRecord;
import dev.lapwing.evidence.SampleRun;
import dev.lapwing.evidence.WholeRun;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Estimate;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class RetoldPressuresTest {
    private static final RetoldPressures IN_BAR = new RetoldPressures(PressureDisplay.BAR);

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "rises above 45 psi within 3 s                | rises above 3.103 bar within 3 s",
                "is within ± 2 psi (tolerance)                | is within ± 0.1379 bar (tolerance)",
                "limit within ±2 psi: inside by 1.345 psi.    | limit within ±0.1379 bar: inside by 0.09273 bar.",
                "was -10.81 psi ± 0.12 psi (k = 2.39)         | was -0.7453 bar ± 0.0083 bar (k = 2.39)",
                "was 11.12 psi + 1.2 psi - 0.17 psi (95.45 %) | was 0.767 bar + 0.083 bar - 0.012 bar (95.45 %)",
                "between 69 psi and 71.5 psi (charged-band)   | between 4.757 bar and 4.93 bar (charged-band)",
                "falls by 3 psi/min or by 90 psi/s            | falls by 0.2068 bar/min or by 6.205 bar/s",
                "stays at 4 bar, as kPa: 350 kPa              | stays at 4 bar, as kPa: 3.5 bar"
            })
    void aPressureIsToldInTheReadersUnitAndKeepsWhatItsUncertaintyLeaves(String told, String retold) {
        assertThat(IN_BAR.apply(told)).isEqualTo(retold);
    }

    @ParameterizedTest
    @CsvSource({"14.7 psi abs", "half-brake@2psi", "psi 3", "2 psikit", "v1.2 psi", "3 m3/(s.Pa)", "30 V"})
    void whatIsNoGaugePressureStays(String text) {
        assertThat(IN_BAR.apply(text)).isEqualTo(text);
    }

    @Test
    void whatIsInThatUnitAlreadyStaysToTheLetter() {
        assertThat(IN_BAR.apply("was 4.1234567 bar ± 0.02 bar")).isEqualTo("was 4.1234567 bar ± 0.02 bar");
    }

    @ParameterizedTest
    @EnumSource(PressureDisplay.class)
    void noSentenceOfAnyReportKeepsAnotherUnit(PressureDisplay display) {
        RunRecord record = SampleRun.record(4, 1)
                .told(finding -> finding.told(RetoldPressuresTest::saidMore), RetoldPressuresTest::saidMore);
        WholeRun run = WholeRun.of(List.of(record));
        TerminalReport terminal = new TerminalReport(display, 300, TerminalReport.Style.PLAIN);
        String unit = terminal.sequence(record).replaceAll("(?s).*It was \\S+ (\\w+),.*", "$1");

        for (String report : new String[] {
            terminal.sequence(record),
            terminal.summary(run),
            new HtmlReport(display).of(run),
            new JunitXml(display).of(run)
        }) {
            assertThat(report.replace('\u00a0', ' '))
                    .containsPattern("It was \\S+ " + unit + ", \\S+ " + unit + " or \\S+ " + unit + "\\.");
        }
    }

    private static String saidMore(String text) {
        return text + " It was 50 psi, 3 bar or 310 kPa.";
    }

    @Test
    void whatIsKnownIsToldWithTheDigitsOfTheTablesAndNotRoundedTwice() {
        // U is 0.155 psi, which is 0.0107 bar; rounded up in psi it is 0.16 psi, and that again would be 0.012 bar.
        double psi = 6894.757293168361;
        Estimate known = new Estimate(11.1234 * psi, Dimension.PRESSURE, List.of(new Component("gain", 0.0775 * psi)));
        RetoldPressures retold = new RetoldPressures(PressureDisplay.BAR, Optional.of(known));

        assertThat(retold.apply("was 11.12 psi ± 0.16 psi (k = 2), others 11.13 psi ± 0.16 psi"))
                .isEqualTo("was 0.767 bar ± 0.011 bar (k = 2), others 0.767 bar ± 0.012 bar");
    }
}
