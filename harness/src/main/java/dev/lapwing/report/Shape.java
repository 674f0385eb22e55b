package dev.lapwing.report;

import dev.lapwing.finding.Verdict;

/** A shape for each verdict, so that nothing is told by colour alone. Always beside the verdict's word or a number. */
final class Shape {
    private Shape() {}

    /** The shapes' definitions, once a page. */
    static String definitions() {
        return "<svg width=\"0\" height=\"0\" class=\"defs\" aria-hidden=\"true\"><defs>"
                + symbol("none", "<circle cx=\"8\" cy=\"8\" r=\"6.5\" class=\"hollow\"/><path d=\"M5 8h6\"/>")
                + symbol(
                        "pass",
                        "<circle cx=\"8\" cy=\"8\" r=\"7\" class=\"full\"/><path d=\"M4.6 8.4l2.4 2.6 4.5-5.6\"/>")
                + symbol(
                        "inconclusive",
                        "<path class=\"full\" d=\"M8 .6L15.4 8 8 15.4.6 8z\"/>"
                                + "<path d=\"M5.8 6.4c0-3 4.4-3 4.4-.2 0 1.7-2.2 1.6-2.2 3.2m0 1.7v1\"/>")
                + symbol("fail", "<path class=\"full\" d=\"M1.2 1.2h13.6v13.6H1.2z\"/><path d=\"M5 5l6 6M11 5l-6 6\"/>")
                + symbol("error", "<path class=\"full\" d=\"M8 .8l7.4 13.9H.6z\"/><path d=\"M8 5.6v4.6m0 1.7v1\"/>")
                + "</defs></svg>\n";
    }

    private static String symbol(String verdict, String drawing) {
        return "<symbol id=\"v-" + verdict + "\" viewBox=\"0 0 16 16\">" + drawing + "</symbol>";
    }

    /** Shape and word. */
    static Markup word(Verdict verdict) {
        return new Markup()
                .open("span", "class", "verdict " + verdict.text())
                .raw("<svg viewBox=\"0 0 16 16\" aria-hidden=\"true\"><use href=\"#v-" + verdict.text() + "\"/></svg>")
                .text(verdict.text())
                .close("span");
    }

    /** Outline of a verdict's shape around a place in a chart. */
    static String outline(Verdict verdict, double x, double y, double r) {
        return switch (verdict) {
            case NONE, PASS -> circle(x, y, r);
            case INCONCLUSIVE ->
                "M" + at(x, y - r * 1.3) + "L" + at(x + r * 1.3, y) + "L" + at(x, y + r * 1.3) + "L"
                        + at(x - r * 1.3, y) + "z";
            case FAIL ->
                "M" + at(x - r, y - r) + "h" + Markup.px(2 * r) + "v" + Markup.px(2 * r) + "h" + Markup.px(-2 * r)
                        + "z";
            case ERROR -> "M" + at(x, y - r * 1.3) + "L" + at(x + r * 1.2, y + r) + "L" + at(x - r * 1.2, y + r) + "z";
        };
    }

    private static String circle(double x, double y, double r) {
        String arc = "a" + Markup.px(r) + " " + Markup.px(r) + " 0 1 0 ";
        return "M" + at(x - r, y) + arc + Markup.px(2 * r) + " 0" + arc + Markup.px(-2 * r) + " 0z";
    }

    private static String at(double x, double y) {
        return Markup.px(x) + " " + Markup.px(y);
    }
}
