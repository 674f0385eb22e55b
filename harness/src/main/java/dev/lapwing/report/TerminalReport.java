package dev.lapwing.report;

import dev.lapwing.evidence.Gap;
import dev.lapwing.evidence.Integrity;
import dev.lapwing.evidence.RunRecord;
import dev.lapwing.evidence.WholeRun;
import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Verdict;
import dev.lapwing.quantity.PressureDisplay;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;

/**
 * Results as text. Everything is said in words; colour only repeats it.
 *
 * @param display unit of pressures
 * @param columns width to fit, at least 60
 * @param style   what the reader's terminal can show
 */
public record TerminalReport(PressureDisplay display, int columns, Style style) {

    /** What the reader's terminal can show. */
    public enum Style {
        /** Colour, rules and signs. */
        COLOUR,
        /** Rules and signs. */
        MONO,
        /** Nothing but letters and signs of ASCII, for logs. */
        PLAIN
    }

    public TerminalReport {
        columns = Math.max(60, columns);
    }

    /** What must be read before a run, ending in a line feed. */
    public String cautions(boolean simulated) {
        Page page = page();
        page.rule();
        Cautions.brief(simulated).forEach(caution -> page.wrapped("! ", "  ", caution));
        page.rule();
        return page.text();
    }

    /** One more thing to be read before a run, ending in a line feed. */
    public String caution(String text) {
        Page page = page();
        page.wrapped("! ", "  ", text);
        return page.text();
    }

    /** The findings of one sequence in their order, ending in a line feed. */
    public String sequence(RunRecord stored) {
        RunRecord record = RetoldPressures.of(stored, display);
        Page page = page();
        page.blank();
        page.spread(record.plan().title(), shown(record.verdict()), record.verdict());
        page.wrapped(
                "  ",
                "  ",
                record.summary().sequence() + ", "
                        + Sentences.duration(record.summary().benchSeconds()) + " of bench time, "
                        + Sentences.counts(record.findings()));
        if (record.integrity().state() != Integrity.State.WHOLE) {
            page.wrapped("  ", "  ", record.integrity().why());
        }
        new FindingLines(page, display, columns).write(record.findings());
        return page.text();
    }

    /** What is with a sequence that has no record in the run, ending in a line feed. */
    public String gap(Gap gap) {
        Page page = page();
        page.blank();
        page.spread(gap.title(), shown(gap.verdict()), gap.verdict());
        page.wrapped("  ", "  ", gap.sequence() + ", " + gap.state());
        page.wrapped("  ", "  ", gap.why());
        return page.text();
    }

    /**
     * One line a sequence, then what needs attention, worst first, then the verdict and what was not run. Ends in a
     * line feed.
     */
    public String summary(WholeRun whole) {
        WholeRun run = RetoldPressures.of(whole, display);
        List<RunRecord> records = run.records();
        Page page = page();
        page.blank();
        page.rule();
        records.forEach(record -> page.spread(
                record.plan().title(),
                Sentences.counts(record.findings()) + "  " + padded(shown(record.verdict())),
                record.verdict()));
        run.gaps()
                .forEach(gap ->
                        page.spread(gap.title(), gap.state() + "  " + padded(shown(gap.verdict())), gap.verdict()));
        attention(page, run);
        page.rule();
        Verdict verdict = run.verdict();
        List<Finding> all =
                records.stream().flatMap(record -> record.findings().stream()).toList();
        page.spread(Sentences.sequences(run) + ", " + Sentences.counts(all), shown(verdict), verdict);
        if (records.stream().anyMatch(record -> record.summary().run().simulated())) {
            page.wrapped("", "", Cautions.SIMULATED);
        }
        if (!run.notRun().isEmpty()) {
            page.wrapped(
                    "",
                    "  ",
                    "Not run: " + run.notRun().stream().map(Gap::sequence).collect(Collectors.joining(", ")));
        }
        return page.text();
    }

    /**
     * What is not a pass, worst first; findings that differ by vehicle or loop value alone as one, with the worst one's
     * reason.
     */
    private void attention(Page page, WholeRun run) {
        Map<String, List<Attention>> needing = new LinkedHashMap<>();
        run.records()
                .forEach(record -> record.findings().stream()
                        .filter(finding -> finding.verdict().compareTo(Verdict.PASS) > 0)
                        .map(finding -> new Attention(record.summary().sequence(), finding))
                        .forEach(one -> needing.computeIfAbsent(one.key(), key -> new ArrayList<>())
                                .add(one)));
        List<List<Attention>> groups = new ArrayList<>(needing.values());
        groups.sort(Comparator.comparing(
                (List<Attention> group) -> group.get(0).finding.verdict(), Comparator.reverseOrder()));
        if (!groups.isEmpty() || !run.missed().isEmpty()) {
            page.blank();
        }
        for (Gap gap : run.missed()) {
            attention(page, gap.verdict(), gap.sequence() + ": " + gap.state(), gap.why());
        }
        for (List<Attention> group : groups) {
            Attention worst = group.stream()
                    .min(Comparator.comparingDouble(one -> one.finding.margin().orElse(Double.NEGATIVE_INFINITY)))
                    .orElseThrow();
            String which = group.stream().map(Attention::which).collect(Collectors.joining(" "));
            String order = worst.finding.margin().isPresent() ? "The worst, " : "The first, ";
            String one = group.size() == 1 || worst.which().isEmpty() ? "" : order + worst.which() + ": ";
            attention(
                    page,
                    worst.finding.verdict(),
                    worst.sequence + ": " + worst.stem() + which,
                    one + worst.finding.because());
        }
    }

    private static void attention(Page page, Verdict verdict, String what, String why) {
        String word = shown(verdict);
        page.verdict(word, verdict);
        page.follow(word.length() + 2, what);
        page.wrapped("  ", "  ", why);
    }

    private record Attention(String sequence, Finding finding) {
        String stem() {
            return finding.id().replaceAll("[\\[@].*", "");
        }

        /** {@code [10 %]@4}: loop values and vehicle; empty where there are none. */
        String which() {
            return finding.id().substring(stem().length());
        }

        String key() {
            return finding.verdict() + " " + sequence + " " + stem();
        }
    }

    private Page page() {
        return new Page(columns, style);
    }

    /** What is not a pass stands out by its letters. */
    static String shown(Verdict verdict) {
        return verdict.compareTo(Verdict.PASS) > 0 ? verdict.text().toUpperCase(Locale.ROOT) : verdict.text();
    }

    private static String padded(String word) {
        return " ".repeat(Math.max(0, 12 - word.length())) + word;
    }
}
