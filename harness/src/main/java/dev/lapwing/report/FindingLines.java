package dev.lapwing.report;

import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Verdict;
import dev.lapwing.quantity.PressureDisplay;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;

/** The table of a sequence's findings. Figures stand under each other; the name takes what room is left. */
final class FindingLines {
    private static final int NAME_LEAST = 16;

    private final Page page;
    private final PressureDisplay display;
    private final int columns;
    /** Width of the widest verdict. */
    private int verdicts;
    /** What the explanation before this one rested on. */
    private String restedOn = "";

    FindingLines(Page page, PressureDisplay display, int columns) {
        this.page = page;
        this.display = display;
        this.columns = columns;
    }

    private record Row(Finding finding, String measured, String limit, String margin) {}

    void write(List<Finding> findings) {
        List<Row> rows = findings.stream()
                .filter(finding -> finding.verdict() != Verdict.NONE)
                .map(this::row)
                .toList();
        verdicts = findings.stream()
                .mapToInt(finding -> finding.verdict().text().length())
                .max()
                .orElse(0);
        int measured = width(rows, Row::measured, "measured");
        int limit = width(rows, Row::limit, "limit");
        int margin = width(rows, Row::margin, "margin");
        int name = Math.max(
                NAME_LEAST,
                Math.min(
                        width(rows, row -> row.finding.id(), "expectation"),
                        columns - verdicts - measured - limit - margin - 8));
        if (!rows.isEmpty()) {
            page.rest(left("", verdicts) + "  " + left("expectation", name) + "  " + right("measured", measured) + "  "
                    + right("limit", limit) + "  " + right("margin", margin));
        }
        for (Row row : rows) {
            List<String> pieces = broken(row.finding.id(), name);
            Verdict verdict = row.finding.verdict();
            String word = TerminalReport.shown(verdict);
            page.verdict(word, verdict);
            page.rest(" ".repeat(verdicts - word.length()) + "  " + left(pieces.get(0), name) + "  "
                    + right(row.measured, measured) + "  " + right(row.limit, limit) + "  "
                    + right(row.margin, margin));
            pieces.stream().skip(1).forEach(piece -> page.rest(" ".repeat(verdicts + 4) + piece));
            if (verdict != Verdict.PASS) {
                explain(row.finding);
            }
        }
        none(findings);
    }

    /** What was not asked, by reason. */
    private void none(List<Finding> findings) {
        Map<String, List<String>> byReason = new LinkedHashMap<>();
        findings.stream()
                .filter(finding -> finding.verdict() == Verdict.NONE)
                .forEach(finding -> byReason.computeIfAbsent(finding.because(), reason -> new ArrayList<>())
                        .add(finding.id()));
        String indent = " ".repeat(verdicts + 2);
        byReason.forEach((reason, ids) -> {
            page.verdict(Verdict.NONE.text(), Verdict.NONE);
            page.wrapped(" ".repeat(verdicts + 2 - Verdict.NONE.text().length()), indent, reason);
            page.wrapped(indent, indent, String.join(", ", ids));
        });
    }

    /** Why, what the limit rests on, and where the expectation stands, unless that was just said of another vehicle. */
    private void explain(Finding finding) {
        String indent = " ".repeat(verdicts + 2);
        String conditional = Sentences.conditional(finding);
        boolean add = !conditional.isEmpty() && !finding.because().contains(conditional);
        page.wrapped(indent, indent, finding.because() + (add ? " (" + conditional + ")" : ""));
        String limit = Sentences.limitSource(finding);
        String rests = limit + " " + finding.place();
        if (!rests.equals(restedOn)) {
            finding.limit().ifPresent(any -> page.wrapped(indent, indent, limit));
            page.wrapped(indent, indent, "asked at " + finding.place() + ": " + finding.sentence());
        }
        restedOn = rests;
    }

    private Row row(Finding finding) {
        FindingFigures figures = FindingFigures.of(finding, display);
        return new Row(finding, page.signs(figures.measured()), page.signs(figures.limit()), figures.margin());
    }

    private static int width(List<Row> rows, Function<Row, String> column, String head) {
        return Math.max(
                head.length(),
                rows.stream().map(column).mapToInt(String::length).max().orElse(0));
    }

    /** A long id in pieces of at most that width, broken after a hyphen or stroke where there is one. */
    private static List<String> broken(String id, int width) {
        List<String> pieces = new ArrayList<>();
        String rest = id;
        while (rest.length() > width) {
            int end = Math.max(rest.lastIndexOf('-', width - 1), rest.lastIndexOf('/', width - 1));
            int cut = end < width / 3 ? width : end + 1;
            pieces.add(rest.substring(0, cut));
            rest = rest.substring(cut);
        }
        pieces.add(rest);
        return pieces;
    }

    private static String left(String text, int width) {
        return text + " ".repeat(Math.max(0, width - text.length()));
    }

    private static String right(String text, int width) {
        return " ".repeat(Math.max(0, width - text.length())) + text;
    }
}
