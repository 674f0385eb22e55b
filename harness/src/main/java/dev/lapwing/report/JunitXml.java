package dev.lapwing.report;

import dev.lapwing.evidence.Gap;
import dev.lapwing.evidence.RunRecord;
import dev.lapwing.evidence.WholeRun;
import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Verdict;
import dev.lapwing.quantity.PressureDisplay;
import java.io.StringWriter;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;

/**
 * A run in the common JUnit schema: one {@code testsuite} over all sequences, one {@code testcase} a finding, its
 * {@code classname} the sequence. Fail is a {@code failure}; inconclusive an {@code error} of type
 * {@code inconclusive}; error an {@code error} of type {@code bench}; none is {@code skipped} with its reason. Nothing
 * but pass is green: where nothing was asked at all there is one more {@code testcase}, an {@code error} that says so;
 * so is a record that is missing, while a sequence that was not run is {@code skipped}.
 *
 * @param display unit of pressures in messages
 */
public record JunitXml(PressureDisplay display) {

    /** The whole file, ending in a line feed. */
    public String of(WholeRun whole) {
        WholeRun run = RetoldPressures.of(whole, display);
        StringWriter text = new StringWriter();
        try {
            XMLStreamWriter xml = XMLOutputFactory.newDefaultFactory().createXMLStreamWriter(text);
            xml.writeStartDocument("UTF-8", "1.0");
            xml.writeCharacters("\n");
            suite(xml, cases(run), run);
            xml.writeEndDocument();
            xml.close();
        } catch (XMLStreamException e) {
            throw new IllegalStateException("text in memory cannot be written", e);
        }
        return text + "\n";
    }

    private record Case(String sequence, Finding finding, double seconds) {}

    private static List<Case> cases(WholeRun run) {
        Stream<Case> told = Stream.concat(
                run.records().stream().flatMap(JunitXml::cases),
                run.gaps().stream().map(gap -> new Case(gap.sequence(), gap(gap), 0)));
        boolean asked = run.records().stream().anyMatch(record -> record.verdict() != Verdict.NONE);
        return asked
                ? told.toList()
                : Stream.concat(Stream.of(new Case("lapwing", nothingAsked(), 0)), told)
                        .toList();
    }

    private static Stream<Case> cases(RunRecord record) {
        String sequence = record.summary().sequence();
        if (record.findings().isEmpty() || record.verdict() != Verdict.greatest(record.findings(), Finding::verdict)) {
            return Stream.concat(Stream.of(new Case(sequence, wholeRecord(record), 0)), cases(sequence, record));
        }
        return cases(sequence, record);
    }

    private static Stream<Case> cases(String sequence, RunRecord record) {
        return record.findings().stream()
                .map(finding -> new Case(
                        sequence,
                        finding,
                        finding.window().map(w -> w.seconds()).orElse(0.0)));
    }

    /** A record that says less than its files should is an error, and is seen as one. */
    private static Finding wholeRecord(RunRecord record) {
        String why = record.integrity().why();
        return said(
                "record",
                "the record of the run is complete",
                record.name(),
                Verdict.ERROR,
                why.isEmpty() ? "the run was not finished and has no findings" : why);
    }

    private static Finding gap(Gap gap) {
        return said(
                "record",
                "the run holds a record of the sequence",
                "the list of its sequences",
                gap.verdict(),
                gap.why());
    }

    /** Whoever reads only this file would take a run whose every case was skipped for a good one. */
    private static Finding nothingAsked() {
        return said(
                "asked",
                "the unit is asked something",
                "the whole run",
                Verdict.INCONCLUSIVE,
                "Nothing could be asked of this unit, and so nothing was measured.");
    }

    private static Finding said(String id, String sentence, String place, Verdict verdict, String because) {
        return Finding.unmeasured(id, sentence, place, verdict, because, Optional.empty(), Optional.empty());
    }

    private void suite(XMLStreamWriter xml, List<Case> cases, WholeRun run) throws XMLStreamException {
        List<RunRecord> records = run.records();
        xml.writeStartElement("testsuite");
        xml.writeAttribute(
                "name",
                run.due() == 1 && records.size() == 1 ? records.get(0).summary().sequence() : "lapwing");
        xml.writeAttribute("tests", Integer.toString(cases.size()));
        xml.writeAttribute("errors", count(cases, Verdict.INCONCLUSIVE, Verdict.ERROR));
        xml.writeAttribute("skipped", count(cases, Verdict.NONE));
        xml.writeAttribute("failures", count(cases, Verdict.FAIL));
        xml.writeAttribute(
                "time",
                seconds(records.stream()
                        .mapToDouble(r -> r.summary().benchSeconds())
                        .sum()));
        if (!records.isEmpty()) {
            xml.writeAttribute(
                    "timestamp", records.get(0).summary().run().started().toString());
            properties(xml, records);
        }
        for (Case one : cases) {
            testCase(xml, one);
        }
        xml.writeCharacters("\n");
        xml.writeEndElement();
    }

    private static void properties(XMLStreamWriter xml, List<RunRecord> records) throws XMLStreamException {
        var first = records.get(0).summary();
        indent(xml, 1);
        xml.writeStartElement("properties");
        property(xml, "unit", first.unit());
        property(xml, "serial", first.run().serial());
        property(xml, "fixture", first.fixture());
        property(xml, "acceptance", first.acceptance());
        property(xml, "bench", first.bench());
        property(xml, "simulated", Boolean.toString(first.run().simulated()));
        if (first.run().simulated()) {
            property(xml, "caution", Cautions.SIMULATED);
        }
        if (first.run().seed().isPresent()) {
            property(xml, "seed", Long.toString(first.run().seed().getAsLong()));
        }
        for (RunRecord record : records) {
            property(
                    xml,
                    "evidence-sha256/" + record.summary().sequence(),
                    record.summary().evidenceSha256());
        }
        indent(xml, 1);
        xml.writeEndElement();
    }

    private static void property(XMLStreamWriter xml, String name, String value) throws XMLStreamException {
        indent(xml, 2);
        xml.writeEmptyElement("property");
        xml.writeAttribute("name", name);
        xml.writeAttribute("value", legal(value));
    }

    private void testCase(XMLStreamWriter xml, Case one) throws XMLStreamException {
        Finding finding = one.finding;
        indent(xml, 1);
        xml.writeStartElement("testcase");
        xml.writeAttribute("name", legal(finding.id()));
        xml.writeAttribute("classname", legal(one.sequence));
        xml.writeAttribute("time", seconds(one.seconds));
        switch (finding.verdict()) {
            case PASS -> {}
            case NONE -> {
                indent(xml, 2);
                xml.writeEmptyElement("skipped");
                xml.writeAttribute("message", legal(finding.because()));
            }
            case FAIL -> outcome(xml, "failure", "fail", finding);
            case INCONCLUSIVE -> outcome(xml, "error", "inconclusive", finding);
            case ERROR -> outcome(xml, "error", "bench", finding);
        }
        indent(xml, 2);
        xml.writeStartElement("system-out");
        xml.writeCharacters(legal(details(finding)));
        xml.writeEndElement();
        indent(xml, 1);
        xml.writeEndElement();
    }

    private void outcome(XMLStreamWriter xml, String element, String type, Finding finding) throws XMLStreamException {
        indent(xml, 2);
        xml.writeStartElement(element);
        xml.writeAttribute("message", legal(finding.because()));
        xml.writeAttribute("type", type);
        xml.writeCharacters(legal(details(finding)));
        xml.writeEndElement();
    }

    private String details(Finding finding) {
        FindingFigures figures = FindingFigures.of(finding, display);
        StringBuilder text =
                new StringBuilder(finding.sentence()).append("\nasked at ").append(finding.place());
        if (finding.measured().isPresent()) {
            text.append('\n')
                    .append(finding.quantity())
                    .append(": ")
                    .append(figures.measured())
                    .append(" (")
                    .append(finding.measured().get().coverage())
                    .append(')');
        }
        if (finding.limit().isPresent()) {
            text.append("\nallowed: ").append(figures.limit()).append("; ").append(Sentences.limitSource(finding));
        }
        if (!figures.margin().isEmpty()) {
            text.append("\nmargin: ").append(figures.margin());
        }
        return text.append("\n")
                .append(finding.verdict().text())
                .append(": ")
                .append(finding.because())
                .toString();
    }

    private static String count(List<Case> cases, Verdict... verdicts) {
        List<Verdict> counted = List.of(verdicts);
        return Long.toString(cases.stream()
                .filter(one -> counted.contains(one.finding.verdict()))
                .count());
    }

    private static String seconds(double seconds) {
        return String.format(Locale.ROOT, "%.3f", seconds);
    }

    private static void indent(XMLStreamWriter xml, int depth) throws XMLStreamException {
        xml.writeCharacters("\n" + "  ".repeat(depth));
    }

    /** XML 1.0 has no way to write most control characters; a mark shows that there was one. */
    private static String legal(String text) {
        return text.codePoints()
                .map(c ->
                        c == '\n' || c == '\t' || c >= 0x20 && c <= 0xD7FF || c >= 0xE000 && c != 0xFFFE && c != 0xFFFF
                                ? c
                                : '\uFFFD')
                .collect(StringBuilder::new, StringBuilder::appendCodePoint, StringBuilder::append)
                .toString();
    }
}
