package dev.lapwing.report;

import dev.lapwing.naming.Signal;
import dev.lapwing.signal.Edges;
import java.util.List;

/** Wires as rows on the time axis: a bar while on, a thin line while off, nothing while not known. */
final class WireRows {
    static final double ROW = 15;

    private final Markup svg;
    private final Axis time;

    WireRows(Markup svg, Axis time) {
        this.svg = svg;
        this.time = time;
    }

    /** Draws them from {@code top} on, the title above. */
    void draw(RunView view, List<Signal> wires, double top) {
        svg.element(
                        "text",
                        "wires: a bar is on, a thin line is off",
                        "class",
                        "title",
                        "x",
                        Markup.px(time.from()),
                        "y",
                        Markup.px(top - 5))
                .line();
        for (int row = 0; row < wires.size(); row++) {
            Signal wire = wires.get(row);
            double y = y(top, row);
            svg.element(
                    "text",
                    wire.key().substring(wire.key().indexOf('/') + 1),
                    "class",
                    "tick e",
                    "x",
                    Markup.px(time.from() - 6),
                    "y",
                    Markup.px(y + 3.5));
            view.edges(wire.key()).ifPresent(edges -> draw(edges, y));
        }
    }

    static double y(double top, int row) {
        return top + ROW * row + ROW / 2;
    }

    private void draw(Edges edges, double y) {
        double from = Math.max(edges.fromUs(), time.low());
        if (from >= time.high()) {
            return;
        }
        StringBuilder off = new StringBuilder();
        StringBuilder on = new StringBuilder();
        double at = from;
        boolean level = edges.at((long) from);
        int next = edges.firstAfter((long) from);
        while (at < time.high()) {
            double until = next < edges.size() ? Math.min(edges.timeUs(next), time.high()) : time.high();
            stretch(level ? on : off, at, until, y, level);
            at = until;
            level = next < edges.size() && edges.level(next);
            next++;
        }
        svg.empty("path", "class", "off", "d", off.toString());
        svg.empty("path", "class", "on", "d", on.toString()).line();
    }

    private void stretch(StringBuilder path, double fromUs, double toUs, double y, boolean on) {
        double from = time.at(fromUs);
        // A pulse shorter than a hair is drawn as wide as one.
        double width = Math.max(on ? 0.8 : 0.1, time.at(toUs) - from);
        path.append('M')
                .append(Markup.px(from))
                .append(' ')
                .append(Markup.px(y))
                .append('h')
                .append(Markup.px(width));
    }
}
