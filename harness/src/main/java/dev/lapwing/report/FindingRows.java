package dev.lapwing.report;

import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Limit;
import dev.lapwing.finding.Verdict;
import dev.lapwing.quantity.PressureDisplay;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** The table of a sequence's findings, each with why, by what limit, and its uncertainty budget. */
final class FindingRows {
    private static final String MINUS = "\u2212";

    private final Markup out = new Markup();
    private final PressureDisplay display;
    private final String anchor;
    private final Detail detail;

    /** @param anchor prefix of the findings' anchors, unique on the page */
    FindingRows(PressureDisplay display, String anchor, Detail detail) {
        this.display = display;
        this.anchor = anchor;
        this.detail = detail;
    }

    Markup of(List<Finding> findings, Map<Finding, Markup> closeUps) {
        out.open("table", "class", "cards").raw("<thead><tr><th>No.</th><th>verdict</th><th>expectation</th>");
        out.raw("<th class=\"n\">measured &#177; U</th><th class=\"n\">limit</th><th class=\"n\">margin</th>");
        out.raw("<th>in its limit</th></tr></thead>").line();
        for (int i = 0; i < findings.size(); i++) {
            Finding finding = findings.get(i);
            if (detail != Detail.FIGURES || finding.verdict() != Verdict.PASS) {
                // A body of its own, so that paper does not part a finding from its reason.
                out.open("tbody");
                row(i + 1, finding);
                more(finding, Optional.ofNullable(closeUps.get(finding)));
                out.close("tbody");
            }
        }
        return out.raw("</table>").line();
    }

    private void row(int number, Finding finding) {
        FindingFigures figures = FindingFigures.of(finding, display);
        boolean hot = finding.verdict().compareTo(Verdict.PASS) > 0;
        out.open("tr", "id", anchor + number, "class", hot ? "one hot" : "one");
        out.element("td", Integer.toString(number), "data-h", "No.");
        out.open("td").add(Shape.word(finding.verdict())).close("td");
        out.open("td", "class", "wide");
        out.element("span", finding.id(), "class", "id").close("td");
        figure("measured", figures.measured());
        figure("limit", figures.limit());
        figure("margin", figures.margin());
        out.open("td", "class", "gauge wide").add(Gauge.of(finding)).close("td");
        out.close("tr").line();
    }

    private void figure(String head, String text) {
        out.element("td", text.replace("-", MINUS), "class", "n", text.isEmpty() ? "data-e" : "data-h", head);
    }

    /** The row below: why, the traces around it, and what its figures rest on. */
    private void more(Finding finding, Optional<Markup> closeUp) {
        boolean pass = finding.verdict() == Verdict.PASS;
        boolean hot = finding.verdict().compareTo(Verdict.PASS) > 0;
        out.open("tr", "class", hot ? "more hot" : "more")
                .raw("<td colspan=\"2\"></td>")
                .open("td", "colspan", "5", "class", "wide");
        out.element("p", Unbroken.of(finding.sentence()), "class", "said");
        if (!pass) {
            String conditional = Sentences.conditional(finding);
            boolean add = !conditional.isEmpty() && !finding.because().contains(conditional);
            String why = finding.because() + (add ? " (" + conditional + ")" : "");
            out.element("p", Unbroken.of(why), "class", hot ? "why" : "why calm");
            closeUp.ifPresent(out::add);
        }
        if (detail == Detail.ALL || detail == Detail.PASSES_IN_BRIEF && !pass) {
            details(finding, pass ? closeUp : Optional.empty());
        }
        out.close("td").close("tr").line();
    }

    private void details(Finding finding, Optional<Markup> closeUp) {
        FindingFigures figures = FindingFigures.of(finding, display);
        out.open("details").element("summary", summary(finding, closeUp.isPresent()));
        if (finding.verdict() == Verdict.PASS) {
            out.element("p", Unbroken.of(finding.because()));
        }
        closeUp.ifPresent(out::add);
        finding.limit().ifPresent(limit -> out.element("p", Unbroken.of(limitText(limit, figures.ofLimit()))));
        finding.conformity()
                .ifPresent(conformity -> out.element("p", Unbroken.of(Sentences.risk(finding, conformity))));
        finding.measured()
                .ifPresent(
                        measured -> out.add(BudgetTable.of(finding.quantity(), measured, figures.ofValue(), display)));
        out.element("p", "asked at " + finding.place(), "class", "note").close("details");
    }

    /** What the details hold. */
    private static String summary(Finding finding, boolean closeUp) {
        List<String> parts = new ArrayList<>();
        if (closeUp) {
            parts.add("close-up");
        }
        finding.limit().ifPresent(limit -> parts.add("limit"));
        finding.measured().ifPresent(measured -> parts.add("uncertainty"));
        if (parts.isEmpty()) {
            return "where it is asked";
        }
        String last = parts.remove(parts.size() - 1);
        return parts.isEmpty() ? last : String.join(", ", parts) + " and " + last;
    }

    private static String limitText(Limit limit, Figures figures) {
        String rule = Sentences.rule(limit.rule());
        String largest = limit.largestUncertainty().isPresent()
                ? ", decided only with U up to "
                        + figures.written(limit.largestUncertainty().getAsDouble(), true)
                : "";
        return "Limit " + limit.figure() + ": " + figures.limit(limit) + ", " + rule + largest + ". Source: "
                + limit.source() + " (" + limit.place() + ")";
    }
}
