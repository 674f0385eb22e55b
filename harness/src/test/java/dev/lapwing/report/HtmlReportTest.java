package dev.lapwing.report;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.evidence.RunRecord;
import dev.lapwing.evidence.SampleRun;
import dev.lapwing.evidence.WholeRun;
import dev.lapwing.quantity.PressureDisplay;
import java.io.ByteArrayInputStream;
import java.util.Collections;
import java.util.List;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;

class HtmlReportTest {
    private static final HtmlReport HTML = new HtmlReport(PressureDisplay.PSI);
    private static final RunRecord RECORD = SampleRun.record(10, 1);
    private static final String PAGE = page(RECORD, SampleRun.record(4, 2));

    private static String page(RunRecord... records) {
        return HTML.of(WholeRun.of(List.of(records)));
    }

    private static Document parsed(String page) throws Exception {
        return DocumentBuilderFactory.newDefaultInstance()
                .newDocumentBuilder()
                .parse(new ByteArrayInputStream(
                        page.replace("<!DOCTYPE html>\n", "").getBytes(UTF_8)));
    }

    private static String textOf(String page) throws Exception {
        return parsed(page).getDocumentElement().getTextContent().replaceAll("\\s+", " ");
    }

    @Test
    void thePageIsWellFormed() throws Exception {
        assertThat(parsed(PAGE).getDocumentElement().getTagName()).isEqualTo("html");
    }

    @Test
    void theTimeAxisBeginsWithTheRunAndNotWithTheBench() throws Exception {
        String late = page(SampleRun.afterTenHours());
        assertThat(textOf(late)).contains("4.0 s of bench time");
        assertThat(late).contains(">36000.0<", ">36004.0<").doesNotContain(">20000<");
    }

    @Test
    void thePageNeedsNothingElse() throws Exception {
        assertThat(PAGE)
                .doesNotContain("http:", "https:", "<script", "<link", "<img", "@import", "src=")
                .doesNotContainPattern("url\\((?!#)");
        NodeList uses = parsed(PAGE).getElementsByTagName("use");
        for (int i = 0; i < uses.getLength(); i++) {
            assertThat(uses.item(i).getAttributes().getNamedItem("href").getTextContent())
                    .startsWith("#v-");
        }
    }

    @Test
    void everyAnchorThatIsReferredToIsThereOnce() {
        assertThat(PAGE.split("href=\"#", -1)).allSatisfy(piece -> {
            String anchor = piece.substring(0, piece.indexOf('"'));
            if (anchor.matches("s\\d+(-\\d+)?")) {
                assertThat(PAGE.split("id=\"" + anchor + "\"", -1)).as(anchor).hasSize(2);
            }
        });
    }

    @Test
    void everyVerdictStandsInWordsBesideItsShape() throws Exception {
        NodeList spans = parsed(PAGE).getElementsByTagName("span");
        int seen = 0;
        for (int i = 0; i < spans.getLength(); i++) {
            String css = ((Element) spans.item(i)).getAttribute("class");
            if (css.startsWith("verdict ")) {
                assertThat(spans.item(i).getTextContent()).isEqualTo(css.substring(8));
                seen++;
            }
        }
        assertThat(seen).isGreaterThan(12);
    }

    @Test
    void theSimulatedRunSaysSoBeforeAnythingElse() throws Exception {
        String text = textOf(PAGE);

        assertThat(text.split("nothing about any real unit", -1)).hasSizeGreaterThanOrEqualTo(4);
        assertThat(text.indexOf("nothing about any real unit")).isLessThan(text.indexOf("Verdicts"));
    }

    @Test
    void identityRuleAndChecksumsAreOnThePage() throws Exception {
        assertThat(textOf(PAGE))
                .contains("Harrowmere Light Railway four-vehicle unit")
                .contains("HLR-0042", "HLR-BT-014 issue 3", "simulated four-vehicle bench", "P. Wren")
                .contains("w = U", "k = 2", "JCGM 106")
                .contains(RECORD.summary().evidenceSha256());
    }

    @Test
    void aFindingSaysWhatTheOtherReportsSay() throws Exception {
        assertThat(textOf(PAGE).replace('\u2212', '-'))
                .contains("3.680 ± 0.014 s")
                .contains("2 to 3.3 s")
                .contains("-0.380 s")
                .contains("fixtures/classic.yaml:66:20")
                .contains("calibration, BC4")
                .contains("share of variance");
    }

    @Test
    void aRecordThatIsMissingAndASequenceThatWasNotRunStandOnThePage() throws Exception {
        assertThat(textOf(HTML.of(SampleRun.withGaps())))
                .startsWith("error: ")
                .contains("1 of 3 sequences")
                .contains("Lap <holds>05-lapno record", "05-lap: Its record is missing.")
                .contains("Dump06-dumpnot run", "Not run: an error ended the run.06-dump");
    }

    @Test
    void whatIsWrittenInFilesCannotBecomeMarkup() {
        assertThat(PAGE).contains("a remark of the operator: ±, &lt;b&gt;").doesNotContain("<b>t");
    }

    @Test
    void everyAxisHasItsUnit() throws Exception {
        assertThat(textOf(PAGE))
                .contains("brake pipe, psi", "brake cylinders, psi", "handle, degrees", "bench time, s");
        assertThat(textOf(new HtmlReport(PressureDisplay.BAR).of(WholeRun.of(List.of(RECORD)))))
                .contains("brake pipe, bar");
    }

    @Test
    void detailsAreNamedAfterWhatTheyHold() {
        assertThat(PAGE).contains("<summary>limit and uncertainty</summary>");
        String none = PAGE.substring(PAGE.indexOf("\"verdict none\"", PAGE.indexOf("id=\"s1-1\"")));
        assertThat(none.substring(0, none.indexOf("</tbody>"))).doesNotContain("uncertainty</summary>");
    }

    @Test
    void aTroubleIsToldAsASentence() {
        assertThat(PAGE).contains("<p class=\"why\">The pipe never rose</p>");
    }

    @Test
    void aReasonIsLoudOnlyWhereSomethingNeedsAttention() {
        assertThat(PAGE).contains("<p class=\"why\">", "<p class=\"why calm\">");
        String none = PAGE.substring(PAGE.indexOf("class=\"why calm\""));
        assertThat(none.substring(0, none.indexOf("</tbody>"))).doesNotContain("class=\"why\"");
    }

    @Test
    void theSameRecordGivesTheSameBytes() {
        assertThat(page(SampleRun.record(10, 1))).isEqualTo(page(SampleRun.record(10, 1)));
    }

    @Test
    void aPageStaysBelowItsSizeHoweverMuchWasRunAndKeepsWhatDidNotPass() {
        int records = 700;
        String page = HTML.of(WholeRun.of(Collections.nCopies(records, SampleRun.record(4, 1))));

        assertThat(page.getBytes(UTF_8).length).isLessThanOrEqualTo(HtmlReport.BYTES_MAX);
        assertThat(page).contains("were left out; the records hold everything");
        assertThat(page.split("class=\"id\">cylinder-fills@4<", -1)).hasSize(records + 1);
    }

    @Test
    void nothingIsLeftOutOfAnOrdinaryRun() {
        assertThat(PAGE).doesNotContain("left out");
    }

    @Test
    void aRecordWithoutASingleSampleStillMakesAPage() throws Exception {
        assertThat(textOf(page(SampleRun.neverStarted()))).contains("no findings");
    }
}
