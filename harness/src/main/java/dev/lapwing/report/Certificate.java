package dev.lapwing.report;

import dev.lapwing.evidence.Gap;
import dev.lapwing.evidence.RunIdentity;
import dev.lapwing.evidence.RunRecord;
import dev.lapwing.evidence.RunSummary;
import dev.lapwing.evidence.WholeRun;
import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Verdict;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;

/** The front of a report: what was tested, with what, by which rule, and what came of it. */
final class Certificate {
    private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern(
                    "d MMMM yyyy, HH:mm:ss 'UTC'", Locale.ROOT)
            .withZone(ZoneOffset.UTC);

    private final Markup out = new Markup();
    private final WholeRun whole;
    private final List<RunRecord> records;
    private final RunSummary first;

    Certificate(WholeRun whole) {
        this.whole = whole;
        this.records = whole.records();
        this.first = records.get(0).summary();
    }

    Markup draw() {
        head();
        cautions();
        identity();
        out.element("h2", "Decision rule").element("p", Sentences.RULE);
        sequences();
        attention();
        left();
        return out;
    }

    private void head() {
        Verdict verdict = whole.verdict();
        List<Finding> all =
                records.stream().flatMap(record -> record.findings().stream()).toList();
        out.open("header", "class", "cert").raw("<div>");
        out.element("p", "Record of a brake-controller test", "class", "kicker");
        out.element("h1", first.unit());
        out.element(
                "p",
                Sentences.sequences(whole) + " on the bench \u201c" + first.bench() + "\u201d, "
                        + TIME.format(first.run().started()));
        if (first.run().simulated()) {
            out.open("p").element("strong", Cautions.SIMULATED).close("p");
        }
        out.raw("</div>").open("div", "class", "plate " + verdict.text());
        out.raw("<svg viewBox=\"0 0 16 16\" aria-hidden=\"true\"><use href=\"#v-" + verdict.text() + "\"/></svg>");
        out.element("b", verdict.text()).element("span", Sentences.count(all.size(), "expectation"));
        out.element("span", Sentences.counts(all)).close("div").close("header").line();
    }

    private void cautions() {
        out.open("section", "class", "cautions")
                .element("h2", "Read this first")
                .open("ul");
        boolean strong = true;
        for (String caution : Cautions.of(first.run().simulated())) {
            out.element("li", caution, "class", strong ? "first" : "");
            strong = false;
        }
        out.close("ul").close("section").line();
    }

    private void identity() {
        RunIdentity run = first.run();
        Instant ended = records.get(records.size() - 1).summary().ended().orElse(run.started());
        double bench =
                records.stream().mapToDouble(r -> r.summary().benchSeconds()).sum();
        out.element("h2", "What was tested, and with what").open("div", "class", "two");
        out.open("dl");
        fact("unit", first.unit());
        fact("serial number", stated(run.serial()));
        fact("fixture", first.fixture());
        fact("acceptance", first.acceptance());
        fact("run class", run.runClass().text());
        fact("operator", stated(run.operator()));
        out.close("dl").open("dl");
        fact("bench", first.bench() + (run.simulated() ? " (simulated)" : ""));
        fact("seed", seed(run));
        fact("started", TIME.format(run.started()));
        fact("ended", TIME.format(ended));
        fact("bench time", Sentences.duration(bench));
        fact("harness", run.harness());
        out.close("dl").close("div").line();
        files();
    }

    private static String seed(RunIdentity run) {
        if (run.seed().isPresent()) {
            return Long.toString(run.seed().getAsLong());
        }
        return run.simulated() ? "known to the bench alone" : "none: a real bench";
    }

    private static String stated(String text) {
        return text.isEmpty() ? "not stated" : text;
    }

    private void fact(String name, String value) {
        out.element("dt", name).element("dd", value);
    }

    private void files() {
        Set<RunIdentity.SourceFile> files = new LinkedHashSet<>();
        records.forEach(record -> files.addAll(record.summary().run().files()));
        out.open("details", "class", "paper").element("summary", "files and checksums");
        out.raw("<table><thead><tr><th>file</th><th>SHA-256</th></tr></thead>");
        files.stream()
                .sorted(Comparator.comparing(RunIdentity.SourceFile::kind).thenComparing(RunIdentity.SourceFile::path))
                .forEach(file -> checksum(file.kind() + " " + file.path(), file.sha256()));
        records.forEach(record -> checksum(
                "evidence of " + record.summary().sequence() + ", record "
                        + record.summary().run().id(),
                record.summary().evidenceSha256()));
        out.raw("</table>").close("details").line();
    }

    private void checksum(String what, String sha256) {
        out.raw("<tr><td>").text(what).raw("</td><td>").element("code", sha256).raw("</td></tr>");
    }

    private void sequences() {
        out.element("h2", "Verdicts").raw("<table class=\"cards\"><thead><tr><th>verdict</th><th>sequence</th>");
        out.raw("<th>findings</th><th class=\"n\">bench time</th></tr></thead><tbody>");
        for (int i = 0; i < records.size(); i++) {
            RunRecord record = records.get(i);
            out.raw("<tr><td>").add(Shape.word(record.verdict())).raw("</td>").open("td", "class", "wide");
            out.element("a", record.plan().title(), "href", "#s" + (i + 1)).raw("<br/>");
            out.element("span", record.summary().sequence(), "class", "said").close("td");
            out.element("td", Sentences.counts(record.findings()));
            out.element("td", Sentences.duration(record.summary().benchSeconds()), "class", "n")
                    .raw("</tr>");
        }
        for (Gap gap : whole.gaps()) {
            out.raw("<tr><td>").add(Shape.word(gap.verdict())).raw("</td>").open("td", "class", "wide");
            out.text(gap.title()).raw("<br/>").element("span", gap.sequence(), "class", "said");
            out.close("td").element("td", gap.state()).raw("<td></td></tr>");
        }
        out.raw("</tbody></table>").line();
    }

    private record Place(int sequence, int number, Finding finding) {}

    private void attention() {
        List<Place> places = new ArrayList<>();
        for (int i = 0; i < records.size(); i++) {
            List<Finding> findings = records.get(i).findings();
            for (int k = 0; k < findings.size(); k++) {
                if (findings.get(k).verdict().compareTo(Verdict.PASS) > 0) {
                    places.add(new Place(i + 1, k + 1, findings.get(k)));
                }
            }
        }
        if (places.isEmpty() && whole.missed().isEmpty()) {
            return;
        }
        places.sort(Comparator.comparing((Place place) -> place.finding.verdict(), Comparator.reverseOrder()));
        out.element("h2", "What needs attention").open("ul", "class", "attention");
        for (Gap gap : whole.missed()) {
            out.open("li").add(Shape.word(gap.verdict())).text(gap.sequence() + ": " + gap.why());
            out.close("li");
        }
        for (Place place : places) {
            out.open("li").add(Shape.word(place.finding.verdict()));
            out.element("a", place.finding.id(), "href", "#s" + place.sequence + "-" + place.number);
            out.text(" in " + records.get(place.sequence - 1).summary().sequence() + ": "
                    + Unbroken.of(place.finding.because()));
            out.close("li");
        }
        out.close("ul").line();
    }

    /** What was not tested is as much a result as what was. */
    private void left() {
        Map<String, Map<String, Set<String>>> byReason = new LinkedHashMap<>();
        records.forEach(record -> record.findings().stream()
                .filter(finding -> finding.verdict() == Verdict.NONE)
                .forEach(finding -> byReason.computeIfAbsent(finding.because(), reason -> new LinkedHashMap<>())
                        .computeIfAbsent(finding.id(), id -> new LinkedHashSet<>())
                        .add(record.summary().sequence())));
        if (byReason.isEmpty() && whole.notRun().isEmpty()) {
            return;
        }
        out.element("h2", "Not tested").open("ul");
        for (Gap gap : whole.notRun()) {
            out.open("li").text(gap.why()).raw("<br/>").element("span", gap.sequence(), "class", "said");
            out.close("li");
        }
        byReason.forEach((reason, ids) -> {
            out.open("li").text(reason);
            ids.forEach((id, sequences) -> out.raw("<br/>").element("span", id + where(sequences), "class", "said"));
            out.close("li");
        });
        out.close("ul").line();
    }

    private String where(Set<String> sequences) {
        boolean all = sequences.size() == whole.due() && records.size() > 1;
        return " in " + (all ? "every sequence" : String.join(", ", sequences));
    }
}
