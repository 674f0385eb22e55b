package dev.lapwing.report;

import dev.lapwing.evidence.Integrity;
import dev.lapwing.evidence.RunRecord;
import dev.lapwing.finding.Finding;
import dev.lapwing.plan.Course;
import java.util.Locale;
import java.util.Map;

/** Everything about one sequence. */
final class SequenceSection {
    private static final String CAPTION =
            "Each column of the paper shows the least and the greatest sample in it. Dashes tell vehicles apart; dotted"
                    + " hairlines are commands. Small circles are measured points that passed; a numbered square"
                    + " failed, a diamond is inconclusive, a triangle is an error. Limits are thin lines with ticks"
                    + " to the side that is allowed.";

    private final Markup out = new Markup();
    private final RunView view;
    private final RunRecord record;
    private final String anchor;
    private final Detail detail;

    SequenceSection(RunView view, int number, Detail detail) {
        this.detail = detail;
        this.view = view;
        this.record = view.record();
        this.anchor = "s" + number;
    }

    Markup draw(Markup overview, Map<Finding, Markup> closeUps) {
        out.open("section", "class", "sequence", "id", anchor);
        out.open("h2", "class", "seq").element("span", record.plan().title());
        out.add(Shape.word(record.verdict())).close("h2").line();
        out.element("p", record.plan().purpose());
        out.element(
                "p",
                record.summary().sequence() + "; "
                        + Sentences.duration(record.summary().benchSeconds()) + " of bench time; "
                        + Sentences.counts(record.findings()),
                "class",
                "note");
        if (record.integrity().state() != Integrity.State.WHOLE) {
            out.element("p", record.integrity().why(), "class", "why");
        }
        view.course().troubles().forEach(trouble -> out.element("p", Sentences.begun(trouble.why()), "class", "why"));
        if (overview.length() > 0) {
            out.open("figure").add(overview);
            out.raw("<figcaption class=\"note\">")
                    .text(CAPTION)
                    .raw("</figcaption>")
                    .close("figure");
        }
        out.add(new FindingRows(view.display(), anchor + "-", detail).of(view.findings(), closeUps));
        if (detail == Detail.ALL) {
            commands();
            remarks();
        }
        return out.close("section").line();
    }

    private void commands() {
        if (view.course().executed().isEmpty()) {
            return;
        }
        out.open("details").element("summary", "commands, as due and as executed");
        out.raw("<table><thead><tr><th class=\"n\">due, s</th><th class=\"n\">executed, s</th><th>command</th></tr>"
                + "</thead>");
        for (Course.Executed command : view.course().executed()) {
            out.open("tr").element("td", seconds(command.dueUs()), "class", "n");
            out.element("td", command.atUs().map(SequenceSection::seconds).orElse("not told"), "class", "n");
            out.element("td", command.text()).close("tr");
        }
        out.raw("</table>").close("details").line();
    }

    private void remarks() {
        if (record.remarks().isEmpty()) {
            return;
        }
        out.open("details").element("summary", "remarks of bench and operator").open("ul");
        record.remarks().forEach(remark -> out.element("li", seconds(remark.atUs()) + " s: " + remark.text()));
        out.close("ul").close("details").line();
    }

    private static String seconds(long us) {
        return String.format(Locale.ROOT, "%.6f", us * 1e-6);
    }
}
