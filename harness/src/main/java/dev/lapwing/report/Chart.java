package dev.lapwing.report;

import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Mark;
import dev.lapwing.finding.Verdict;
import dev.lapwing.naming.Signal;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.quantity.Unit;
import dev.lapwing.signal.Trace;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Panels over wires on one time axis. Fill it from the top down, then draw limits and marks into it, then close it. */
final class Chart {
    static final double LEFT = 118;
    static final double RIGHT = 882;
    private static final double WIDTH = 1000;

    private final Markup svg = new Markup();
    private final RunView view;
    private final PressureDisplay display;
    private final Axis time;
    private final Map<String, Panel> panels = new HashMap<>();
    private final Map<String, Double> wireRows = new HashMap<>();
    private double bottom = 14;

    /** @param time bench time in µs, from {@link #LEFT} to {@link #RIGHT} */
    Chart(RunView view, PressureDisplay display, Axis time) {
        this.view = view;
        this.display = display;
        this.time = time;
    }

    /**
     * Adds a panel with the traces of these signals, all of one dimension.
     *
     * @param levels further base-unit levels that must be seen
     * @param zero   true if the axis begins at 0
     */
    void panel(String title, List<Signal> signals, List<Double> levels, double height, boolean zero, int grain) {
        Dimension dimension = signals.get(0).dimension();
        Unit unit = display.unitFor(dimension);
        double low = zero ? 0 : Double.POSITIVE_INFINITY;
        double high = zero ? unit.toBase(dimension == Dimension.PRESSURE ? 1 : 10) : Double.NEGATIVE_INFINITY;
        for (double level : levels) {
            low = Math.min(low, level);
            high = Math.max(high, level);
        }
        for (Signal signal : signals) {
            double[] range = range(view.trace(signal.key()).orElseThrow());
            low = Math.min(low, zero ? Math.max(range[0], unit.toBase(-1)) : range[0]);
            high = Math.max(high, range[1]);
        }
        double room = zero ? 0 : Math.max((high - low) * 0.06, unit.toBase(0.05));
        double top = bottom + 18;
        Axis level = Axis.rounded(
                unit.fromBase(zero && low > -unit.toBase(1.5) ? 0 : low - room),
                unit.fromBase(high + room),
                top + height,
                top,
                height > 80 ? 6 : 3);
        Panel panel = new Panel(svg, time, level, unit);
        panel.frame(title + ", " + unit.symbol(), height > 80 ? 6 : 3);
        boolean oneKind = signals.stream()
                        .map(s -> s.key().replaceAll("@.*", ""))
                        .distinct()
                        .count()
                == 1;
        List<Panel.Name> names = new ArrayList<>();
        for (Signal signal : signals) {
            names.addAll(panel.trace(view.trace(signal.key()).orElseThrow(), Line.of(signal, oneKind), grain));
            panels.put(signal.key(), panel);
        }
        panel.names(names);
        bottom = top + height;
    }

    private double[] range(Trace trace) {
        int end = trace.firstAtOrAfter((long) time.high() + 1);
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (int i = trace.firstAtOrAfter((long) time.low()); i < end; i++) {
            double value = trace.value(i);
            low = Math.min(low, value);
            high = Math.max(high, value);
        }
        return low <= high ? new double[] {low, high} : new double[] {0, 0};
    }

    /** Adds rows for these wires. */
    void wires(List<Signal> wires) {
        if (wires.isEmpty()) {
            return;
        }
        double top = bottom + 20;
        new WireRows(svg, time).draw(view, wires, top);
        for (int row = 0; row < wires.size(); row++) {
            wireRows.put(wires.get(row).key(), WireRows.y(top, row));
        }
        bottom = top + wires.size() * WireRows.ROW;
    }

    /** Draws a limit where it applies. */
    void limit(DrawnLimit limit, Verdict verdict) {
        String css = verdict == Verdict.PASS ? "lim" : "lim hot";
        if (limit instanceof DrawnLimit.Level level) {
            panel(level.signal()).ifPresent(panel -> level(panel, level, css));
        } else if (limit instanceof DrawnLimit.Time at && time.low() <= at.atUs() && at.atUs() <= time.high()) {
            y(at.signal(), at.level()).ifPresent(y -> {
                // A post with feet that point to the side that is allowed.
                double x = time.at(at.atUs());
                String foot = at.upper() ? "h-5" : "h5";
                svg.empty(
                        "path",
                        "class",
                        css,
                        "d",
                        "M" + Markup.px(x) + " " + Markup.px(y - 9) + foot + "M" + Markup.px(x) + " " + Markup.px(y - 9)
                                + "v18" + foot);
            });
        }
    }

    private static void level(Panel panel, DrawnLimit.Level level, String css) {
        double from = panel.x(level.fromUs());
        double to = Math.max(from + 3, panel.x(level.toUs()));
        String tick = level.upper() ? "v4" : "v-4";
        String start = Markup.px(from) + " " + Markup.px(panel.y(level.start()));
        String end = Markup.px(to) + " " + Markup.px(panel.y(level.end()));
        // The ticks at its ends point to the side that is allowed.
        svgPath(panel.svg(), css, "M" + start + tick + "M" + start + "L" + end + tick);
    }

    private static void svgPath(Markup svg, String css, String path) {
        svg.empty("path", "class", css, "d", path);
    }

    /** Draws a measured point in its verdict's shape, with a label beside it. */
    void mark(Mark mark, Finding finding, String label) {
        Optional<Signal> signal = view.signals().stream()
                .filter(s -> s.key().equals(mark.signal()))
                .findFirst();
        if (signal.isEmpty() || mark.timeUs() < time.low() || mark.timeUs() > time.high()) {
            return;
        }
        y(signal.get(), mark.value()).ifPresent(y -> {
            double x = time.at(mark.timeUs());
            boolean pass = finding.verdict() == Verdict.PASS;
            String css = pass && label.isEmpty()
                    ? "mark"
                    : "mark hot " + finding.verdict().text();
            svgPath(svg, css, Shape.outline(finding.verdict(), x, y, pass && label.isEmpty() ? 2.4 : 4.5));
            if (!label.isEmpty()) {
                boolean left = x > (LEFT + RIGHT) / 2;
                svg.element(
                        "text",
                        label,
                        "class",
                        left ? "label e" : "label",
                        "x",
                        Markup.px(x + (left ? -8 : 8)),
                        "y",
                        Markup.px(y < 30 ? y + 14 : y - 6));
            }
        });
    }

    /** A hairline through everything at a bench time, with a few words at the top. */
    void moment(double timeUs, String text) {
        if (timeUs < time.low() || timeUs > time.high()) {
            return;
        }
        String x = Markup.px(time.at(timeUs));
        svg.open("path", "class", "moment", "d", "M" + x + " 8V" + Markup.px(bottom))
                .element("title", text)
                .close("path");
    }

    /** Words at the top of a hairline. */
    void caption(double timeUs, String text) {
        double x = time.within(timeUs);
        boolean left = x > (LEFT + RIGHT) / 2;
        svg.element("text", text, "class", left ? "label e" : "label", "x", Markup.px(x + (left ? -4 : 4)), "y", "10");
    }

    /**
     * Draws the time axis and gives the whole chart.
     *
     * @param title    of the axis, with its unit
     * @param originUs bench time that it counts from, µs
     * @param spoken   what the chart shows, for those who do not see it
     */
    Markup close(String title, double originUs, String spoken) {
        Axis seconds = new Axis((time.low() - originUs) * 1e-6, (time.high() - originUs) * 1e-6, LEFT, RIGHT);
        for (Axis.Tick tick : seconds.ticks(12)) {
            String x = Markup.px(seconds.at(tick.value()));
            svgPath(svg, "grid", "M" + x + " " + Markup.px(bottom) + "v5");
            svg.element("text", tick.label(), "class", "tick m", "x", x, "y", Markup.px(bottom + 16));
        }
        svgPath(svg, "frame", "M" + Markup.px(LEFT) + " " + Markup.px(bottom) + "H" + Markup.px(RIGHT));
        svg.element("text", title, "class", "title e", "x", Markup.px(RIGHT), "y", Markup.px(bottom + 32));
        return new Markup()
                .open("div", "class", "scroll")
                .open(
                        "svg",
                        "viewBox",
                        "0 0 " + Markup.px(WIDTH) + " " + Markup.px(bottom + 38),
                        "role",
                        "img",
                        "aria-label",
                        spoken)
                .line()
                .add(svg)
                .close("svg")
                .close("div")
                .line();
    }

    private Optional<Panel> panel(Signal signal) {
        return Optional.ofNullable(panels.get(signal.key()));
    }

    private Optional<Double> y(Signal signal, double base) {
        return Optional.ofNullable(wireRows.get(signal.key()))
                .or(() -> panel(signal).map(panel -> panel.y(base)));
    }
}
