package dev.lapwing.report;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.evidence.RunRecord;
import dev.lapwing.evidence.SampleRun;
import dev.lapwing.evidence.WholeRun;
import dev.lapwing.quantity.PressureDisplay;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

class TerminalReportTest {
    private static final RunRecord RECORD = SampleRun.record(4, 1);

    private static TerminalReport report(int columns, TerminalReport.Style style) {
        return new TerminalReport(PressureDisplay.PSI, columns, style);
    }

    private static String everything(TerminalReport report) {
        return report.cautions(true) + report.sequence(RECORD) + report.summary(WholeRun.of(List.of(RECORD, RECORD)));
    }

    @ParameterizedTest
    @ValueSource(ints = {80, 100, 132})
    void noLineIsWiderThanTheTerminal(int columns) {
        assertThat(everything(report(columns, TerminalReport.Style.MONO)).lines())
                .allSatisfy(line -> assertThat(line.length()).as(line).isLessThanOrEqualTo(columns));
    }

    @Test
    void plainTextIsAsciiWithoutEscapes() {
        assertThat(everything(report(80, TerminalReport.Style.PLAIN))).matches("[\\n\\x20-\\x7e]*");
    }

    @Test
    void withoutColourThereAreNoEscapes() {
        assertThat(everything(report(80, TerminalReport.Style.MONO))).doesNotContain("\u001b");
    }

    @ParameterizedTest
    @EnumSource(TerminalReport.Style.class)
    void everyVerdictStandsInWords(TerminalReport.Style style) {
        assertThat(report(100, style).sequence(RECORD)).contains("FAIL", "pass", "INCONCLUSIVE", "none");
    }

    @Test
    void colourSaysNothingThatTheWordsDoNot() {
        String coloured = everything(report(100, TerminalReport.Style.COLOUR));

        assertThat(coloured.replaceAll("\u001b\\[[0-9;]*m", ""))
                .isEqualTo(everything(report(100, TerminalReport.Style.MONO)));
    }

    @Test
    void aFailureSaysWhyWhatWasAllowedByWhomAndWhereItWasAsked() {
        assertThat(report(100, TerminalReport.Style.MONO).sequence(RECORD).replaceAll("\\s+", " "))
                .contains("FAIL cylinder-fills@4 3.680 ± 0.014 s 2 to 3.3 s -0.380 s")
                .contains("it took 3.68 s, and 3.3 s are allowed")
                .contains("limit ep-rise-time, guarded rule; HLR-BT-014, 5.7")
                .contains("fixtures/classic.yaml:66:20")
                .contains("asked at sequences/overhaul/04-ep-full-application.yaml:28:5");
    }

    @Test
    void aValueWithinTheGuardBandIsCalledConditional() {
        assertThat(report(100, TerminalReport.Style.MONO).sequence(RECORD)).contains("(conditional pass)");
    }

    @Test
    void aSimulatedRunSaysThatItStatesNothingAboutAnyRealUnit() {
        TerminalReport report = report(80, TerminalReport.Style.PLAIN);

        for (String text : List.of(report.cautions(true), report.summary(WholeRun.of(List.of(RECORD))))) {
            assertThat(text.replaceAll("\\s+", " ")).contains("nothing about any real unit");
        }
        assertThat(report.cautions(false)).contains("compressed air").doesNotContain("imulated");
    }

    @Test
    void theSummaryNamesWhatNeedsAttentionWorstFirst() {
        String summary = report(100, TerminalReport.Style.MONO).summary(WholeRun.of(List.of(RECORD)));

        assertThat(summary.indexOf("FAIL  04-ep-full-application: cylinder-fills@4"))
                .isPositive()
                .isLessThan(summary.indexOf("INCONCLUSIVE  04-ep-full-application: first-response"));
        assertThat(summary).contains("1 sequence, 1 fail, 2 inconclusive, 1 pass, 1 none");
    }

    @Test
    void theSummaryNamesWhatIsMissingFirstAndWhatWasNotRunLast() {
        String summary = report(80, TerminalReport.Style.PLAIN).summary(SampleRun.withGaps());

        assertThat(summary)
                .containsPattern("Lap <holds> +no record +ERROR\n")
                .containsPattern("Dump +not run +none\n")
                .containsPattern("1 of 3 sequences, .* ERROR\n")
                .endsWith("Not run: 06-dump\n");
        assertThat(summary.indexOf("ERROR  05-lap: no record\n  Its record is missing.\n"))
                .isPositive()
                .isLessThan(summary.indexOf("FAIL  04-ep-full-application"));
    }

    @Test
    void aFigureIsNotTornFromItsUnitItsDoubtAndItsFactor() {
        Page page = new Page(40, TerminalReport.Style.MONO);
        page.wrapped(
                "", "", "The rate of brake cylinder 1 was 22.753 psi/s ± 0.061 psi/s (k = 2.03), which is 95.45 %.");
        assertThat(page.text()).isEqualTo("""
                        The rate of brake cylinder 1 was
                        22.753 psi/s ± 0.061 psi/s (k = 2.03),
                        which is 95.45 %.
                        """);
    }
}
