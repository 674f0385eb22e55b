package dev.lapwing.report;

import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.DecisionRule;
import dev.lapwing.uncertainty.Estimate;
import dev.lapwing.uncertainty.Input;
import dev.lapwing.uncertainty.Propagation;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;

/** The uncertainty budget of one quantity, one line a source, what adds most first (JCGM 100:2008, 7.2.7). */
final class BudgetTable {
    private static final List<String> HEADS = List.of(
            "type",
            "u of the source",
            "distribution",
            "sensitivity",
            "contribution",
            "degrees of freedom",
            "share of variance");

    private final Markup out = new Markup();
    private final Estimate measured;
    private final Figures figures;
    private final PressureDisplay display;

    private BudgetTable(Estimate measured, Figures figures, PressureDisplay display) {
        this.measured = measured;
        this.figures = figures;
        this.display = display;
    }

    static Markup of(String quantity, Estimate measured, Figures figures, PressureDisplay display) {
        return measured.components().isEmpty()
                ? new Markup().element("p", quantity + ": counted, without uncertainty", "class", "note")
                : new BudgetTable(measured, figures, display).table(quantity);
    }

    private Markup table(String quantity) {
        out.open("div", "class", "scroll")
                .open("table", "class", "budget")
                // Said in a sentence, a long one ends in a comma.
                .element("caption", quantity.endsWith(",") ? quantity.substring(0, quantity.length() - 1) : quantity)
                .raw("<thead><tr><th>source</th>");
        HEADS.forEach(head -> out.element("th", head, "class", "n"));
        out.raw("</tr></thead>");
        measured.lines().stream()
                .sorted(Comparator.comparingDouble((Component c) -> -Math.abs(c.standard())))
                .forEach(this::line);
        row(
                "combined (k = 1)",
                List.of(
                        "",
                        "",
                        "",
                        "",
                        figures.rounded(measured.standardUncertainty()),
                        freedom(measured.degreesOfFreedom()),
                        ""));
        if (measured.propagated().isEmpty()) {
            String k = "U, expanded with " + measured.coverage();
            row(k, List.of("", "", "", "", figures.expanded(measured), "", ""));
            return out.raw("</table></div>");
        }
        String interval = "+ " + figures.rounded(measured.above()) + " - " + figures.rounded(measured.below());
        row("interval of 95.45 %", List.of("", "", "", "", interval, "", ""));
        return out.raw("</table></div>")
                .element("p", Unbroken.of(drawn(measured.propagated().get())), "class", "note");
    }

    /** How it was drawn. */
    private String drawn(Propagation drawn) {
        String none = drawn.never() + drawn.already() == 0
                ? ""
                : " In " + DecisionRule.percent(drawn.never() + drawn.already()) + " of the draws it has no value.";
        String trials = String.format(Locale.ROOT, "%,d", drawn.trials()).replace(',', Unbroken.SPACE);
        return "Propagated by Monte Carlo, JCGM 101: M = " + trials + " draws, seed " + drawn.seed()
                + settled(drawn)
                + " The interval leaves as much probability at either end. Each contribution is what its source adds"
                + " alone." + none;
    }

    /** How far the draws told value and interval. */
    private String settled(Propagation drawn) {
        String reached = figures.rounded(drawn.tolerance());
        return drawn.settled()
                ? ", settled within " + reached + "."
                : ", the most that are made. They did not settle to " + figures.rounded(drawn.asked())
                        + ": value and ends of the interval may still be off by " + reached
                        + ", and the interval is that much longer at either end.";
    }

    private void line(Component part) {
        row(
                part.source().replace("/", ", "),
                List.of(
                        part.evaluation().name(),
                        part.input()
                                .map(in -> Figures.standard(in.standard(), in.dimension(), display))
                                .orElse(""),
                        part.distribution().text(),
                        part.sensitivity().isPresent()
                                ? sensitivity(part, part.input().orElseThrow())
                                : "",
                        figures.contribution(part, measured),
                        freedom(part.degreesOfFreedom()),
                        Sentences.share(measured.share(part))));
    }

    private String sensitivity(Component part, Input in) {
        return figures.sensitivity(part.sensitivity().orElseThrow(), in.dimension(), in.standard(), display);
    }

    /** Cut to a whole number, not rounded. */
    private static String freedom(OptionalDouble degrees) {
        if (degrees.isEmpty() || degrees.getAsDouble() > 9999) {
            return "\u221e";
        }
        return Long.toString((long) Math.floor(degrees.getAsDouble()));
    }

    private void row(String source, List<String> cells) {
        out.open("tr").element("td", source);
        cells.forEach(cell -> out.element("td", cell.replace("-", "\u2212"), "class", "n"));
        out.close("tr");
    }
}
