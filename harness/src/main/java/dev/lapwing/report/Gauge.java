package dev.lapwing.report;

import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Limit;
import dev.lapwing.uncertainty.Estimate;

/**
 * A measured value with its uncertainty, held against its limit: the box is allowed, its hatched edges are the guard
 * band.
 */
final class Gauge {
    static final String HATCH = "<svg width=\"0\" height=\"0\" class=\"defs\" aria-hidden=\"true\"><defs><pattern"
            + " id=\"hatch\" width=\"4\" height=\"4\" patternUnits=\"userSpaceOnUse\" patternTransform=\"rotate(45)\">"
            + "<path d=\"M0 0v4\" stroke=\"#1b2630\" stroke-width=\"1.1\"/></pattern></defs></svg>\n";

    private static final double WIDTH = 118;

    private final Limit limit;
    private final double value;
    private final double below;
    private final double above;
    private final Axis axis;
    private final Markup svg = new Markup();

    private Gauge(Limit limit, Estimate measured) {
        this.limit = limit;
        this.value = measured.value();
        this.below = measured.below();
        this.above = measured.above();
        this.axis = axis();
    }

    /** Empty if there is nothing to hold against a limit. */
    static Markup of(Finding finding) {
        return FindingFigures.comparable(finding)
                ? new Gauge(finding.limit().get(), finding.measured().get()).draw()
                : new Markup();
    }

    private Axis axis() {
        double low = limit.lower().orElse(limit.upper().orElse(0));
        double high = limit.upper().orElse(low);
        double span = Math.max(high - low, 0);
        double reach = Math.max(Math.abs(limit.margin(value)) * 1.25, Math.max(below, above) * 4);
        double room = Math.max(span * 0.3, reach);
        if (span == 0) {
            room = Math.max(room, Math.max(Math.abs(low) * 0.3, 1e-9));
        }
        double from = Math.min(low - room, value - below - room * 0.1);
        double to = Math.max(high + room, value + above + room * 0.1);
        return new Axis(from, to, 1, WIDTH - 1);
    }

    private Markup draw() {
        double from = axis.at(limit.lower().orElse(axis.low()));
        double to = axis.at(limit.upper().orElse(axis.high()));
        svg.open("svg", "viewBox", "0 0 118 20", "aria-hidden", "true");
        svg.empty("path", "class", "axis", "d", "M0 17.5H118");
        rect("band", from, to);
        if (limit.rule().guards()) {
            if (limit.lower().isPresent()) {
                rect("guard", from, Math.min(to, from + width(below)));
            }
            if (limit.upper().isPresent()) {
                rect("guard", Math.max(from, to - width(above)), to);
            }
        }
        double x = axis.at(value);
        double left = axis.within(value - below);
        double right = axis.within(value + above);
        svg.empty(
                "path",
                "class",
                "bar",
                "d",
                "M" + Markup.px(left) + " 6v6M" + Markup.px(left) + " 9H" + Markup.px(right) + "M" + Markup.px(right)
                        + " 6v6");
        svg.empty("circle", "class", "dot", "cx", Markup.px(x), "cy", "9", "r", "3");
        return svg.close("svg");
    }

    private double width(double doubt) {
        return axis.at(axis.low() + doubt) - axis.from();
    }

    private void rect(String css, double from, double to) {
        svg.empty(
                "rect",
                "class",
                css,
                "x",
                Markup.px(from),
                "y",
                "2.5",
                "width",
                Markup.px(Math.max(0, to - from)),
                "height",
                "13");
    }
}
