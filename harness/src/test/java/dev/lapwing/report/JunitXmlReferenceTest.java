package dev.lapwing.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lapwing.evidence.OpenRecord;
import dev.lapwing.evidence.RunRecord;
import dev.lapwing.evidence.SamplePlan;
import dev.lapwing.evidence.SampleRun;
import dev.lapwing.evidence.WholeRun;
import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Verdict;
import dev.lapwing.plan.Course;
import dev.lapwing.quantity.PressureDisplay;
import java.io.ByteArrayInputStream;
import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.stream.IntStream;
import javax.xml.XMLConstants;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.transform.stream.StreamSource;
import javax.xml.validation.Schema;
import javax.xml.validation.SchemaFactory;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.SAXException;

/**
 * Source: Apache Maven Surefire, surefire-test-report.xsd 3.0.2; its facts stand in junit-schema.xsd in our own words.
 */
class JunitXmlReferenceTest {
    private static final JunitXml XML = new JunitXml(PressureDisplay.PSI);

    private static String xml(RunRecord... records) {
        return XML.of(WholeRun.of(List.of(records)));
    }

    private static void validate(String xml) throws Exception {
        Schema schema = SchemaFactory.newInstance(XMLConstants.W3C_XML_SCHEMA_NS_URI)
                .newSchema(JunitXmlReferenceTest.class.getResource("junit-schema.xsd"));
        schema.newValidator().validate(new StreamSource(new StringReader(xml)));
    }

    private static Element suite(String xml) throws Exception {
        Document document = DocumentBuilderFactory.newDefaultInstance()
                .newDocumentBuilder()
                .parse(new ByteArrayInputStream(xml.getBytes(StandardCharsets.UTF_8)));
        return document.getDocumentElement();
    }

    @Test
    void aRunIsValidByTheCommonSchema() throws Exception {
        RunRecord record = SampleRun.record(4, 1);
        validate(xml(record));
        validate(xml(record, SampleRun.record(4, 2)));
        validate(xml());
    }

    @Test
    void theSchemaOfThisTestRefusesWhatTheCommonOneRefuses() {
        for (String wrong : List.of(
                "<testsuites/>",
                "<testsuite name='x' tests='0' errors='0' skipped='0'/>",
                "<testsuite name='x' tests='0' errors='0' skipped='0' failures='0' time='1,5'/>",
                "<testsuite name='x' tests='1' errors='0' skipped='0' failures='0'><testcase name='y'/></testsuite>",
                "<testsuite name='x' tests='1' errors='0' skipped='0' failures='0'><testcase name='y' time='0'>"
                        + "<error type='t'/><failure type='t'/></testcase></testsuite>")) {
            assertThatThrownBy(() -> validate(wrong)).as(wrong).isInstanceOf(SAXException.class);
        }
    }

    @Test
    void nothingButPassIsGreen() throws Exception {
        Element suite = suite(xml(SampleRun.record(4, 1)));

        assertThat(suite.getAttribute("tests")).isEqualTo("5");
        assertThat(suite.getAttribute("failures")).isEqualTo("1");
        assertThat(suite.getAttribute("errors")).isEqualTo("2");
        assertThat(suite.getAttribute("skipped")).isEqualTo("1");
        assertThat(outcomes(suite, "error")).containsExactly("inconclusive", "inconclusive");
        assertThat(outcomes(suite, "failure")).containsExactly("fail");
    }

    @Test
    void whereNothingWasAskedTheFileIsNotGreen() throws Exception {
        OpenRecord open = OpenRecord.inMemory(SampleRun.identity("none"), SamplePlan.plan());
        open.log().end(0, Course.Ending.COMPLETE);
        List<Finding> none = SampleRun.findings().stream()
                .filter(finding -> finding.verdict() == Verdict.NONE)
                .toList();
        String xml = xml(open.finish(none, SampleRun.STARTED));

        validate(xml);
        assertThat(outcomes(suite(xml), "error")).containsExactly("inconclusive");
        assertThat(suite(xml).getAttribute("errors")).isEqualTo("1");
        assertThat(suite(xml).getAttribute("skipped")).isEqualTo("1");
    }

    @Test
    void aRecordThatIsMissingIsAnErrorAndASequenceThatWasNotRunIsSkipped() throws Exception {
        String xml = XML.of(SampleRun.withGaps());

        validate(xml);
        Element suite = suite(xml);
        assertThat(suite.getAttribute("name")).isEqualTo("lapwing");
        assertThat(suite.getAttribute("tests")).isEqualTo("7");
        assertThat(suite.getAttribute("errors")).isEqualTo("3");
        assertThat(suite.getAttribute("skipped")).isEqualTo("2");
        assertThat(xml)
                .contains("classname=\"05-lap\"", "<error message=\"Its record is missing.\" type=\"bench\">")
                .contains("classname=\"06-dump\"", "<skipped message=\"Not run: an error ended the run.\"/>");
    }

    @Test
    void aFailureNamesMeasuredValueUncertaintyLimitAndMargin() throws Exception {
        Element failure = (Element) suite(xml(SampleRun.record(4, 1)))
                .getElementsByTagName("failure")
                .item(0);

        assertThat(failure.getTextContent())
                .contains("time to rise above 45 psi: 3.680 ± 0.014 s (k = 2)")
                .contains("allowed: 2 to 3.3 s; limit ep-rise-time, guarded rule")
                .contains("margin: -0.380 s")
                .contains("fixtures/classic.yaml:66:20");
    }

    @Test
    void theSameRecordGivesTheSameBytes() {
        assertThat(xml(SampleRun.record(4, 1))).isEqualTo(xml(SampleRun.record(4, 1)));
    }

    private static List<String> outcomes(Element suite, String element) {
        NodeList nodes = suite.getElementsByTagName(element);
        return IntStream.range(0, nodes.getLength())
                .mapToObj(i -> ((Element) nodes.item(i)).getAttribute("type"))
                .toList();
    }
}
