package dev.lapwing.report;

import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Mark;
import dev.lapwing.finding.Verdict;
import dev.lapwing.naming.Signal;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.Unit;
import dev.lapwing.signal.Polyline;
import java.util.ArrayList;
import java.util.Collection;
import java.util.DoubleSummaryStatistics;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Panels over wires on one time axis. Fill it from the top down, then draw limits and marks into it, then close it. */
final class Chart {
    static final double LEFT = 118;
    static final double RIGHT = 882;
    private static final double WIDTH = 1000;
    /** Base-unit span below which an axis is not drawn finer: what is smaller is noise. 1 psi for a pressure. */
    private static final Map<Dimension, Double> LEAST_SPAN = Map.of(Dimension.PRESSURE, Unit.PSI.toBase(1));

    private final Markup svg = new Markup();
    private final RunView view;
    private final Axis time;
    private final Map<String, Panel> panels = new HashMap<>();
    private final Map<String, Double> wireRows = new HashMap<>();
    private final Labels labels = new Labels();
    private double bottom = 14;

    /** @param time bench time in µs, from {@link #LEFT} to {@link #RIGHT} */
    Chart(RunView view, Axis time) {
        this.view = view;
        this.time = time;
    }

    /**
     * Adds a panel with the traces of these signals, all of one dimension.
     *
     * @param levels further base-unit levels that must be seen
     * @param zero   true if the axis begins at 0
     */
    void panel(String title, List<Signal> signals, List<Double> levels, double height, boolean zero, int grain) {
        Unit unit = view.display().unitFor(signals.get(0).dimension());
        Map<Signal, ShownSamples> shown = new LinkedHashMap<>();
        signals.forEach(signal ->
                shown.put(signal, ShownSamples.of(view.trace(signal.key()).orElseThrow(), time)));
        int ticks = height > 80 ? 6 : 3;
        double top = bottom + 24;
        double[] range = range(shown.values(), levels, unit, zero);
        Panel panel = new Panel(svg, time, Axis.rounded(range[0], range[1], top + height, top, ticks), unit);
        panel.frame(title + ", " + unit.symbol(), ticks);
        long kinds = signals.stream()
                .map(signal -> signal.key().replaceAll("@.*", ""))
                .distinct()
                .count();
        List<Panel.Name> names = new ArrayList<>();
        shown.forEach((signal, samples) -> {
            names.addAll(panel.trace(samples, Line.of(signal, kinds == 1), grain));
            panels.put(signal.key(), panel);
        });
        panel.names(names);
        bottom = top + height;
    }

    /** Least and greatest level to be seen, in the unit. Noise about 0 does not move an axis that begins there. */
    private static double[] range(Collection<ShownSamples> shown, List<Double> levels, Unit unit, boolean zero) {
        DoubleSummaryStatistics all = new DoubleSummaryStatistics();
        levels.forEach(level -> all.accept(unit.fromBase(level)));
        for (ShownSamples samples : shown) {
            for (int i = 0; i < samples.size(); i++) {
                all.accept(unit.fromBase(samples.value(i)));
            }
        }
        if (all.getCount() == 0) {
            all.accept(0);
        }
        double step = unit.fromBase(LEAST_SPAN.getOrDefault(unit.dimension(), unit.toBase(1)));
        double low = all.getMin();
        double high = all.getMax();
        if (zero) {
            return new double[] {low > -step ? 0 : low, Math.max(step, high)};
        }
        double room = Math.max((high - low) * 0.06, step * 0.05);
        return new double[] {low - room, high + room};
    }

    /** Adds rows for these wires. */
    void wires(List<Signal> wires) {
        if (wires.isEmpty()) {
            return;
        }
        double top = bottom + 24;
        new WireRows(svg, time).draw(view, wires, top);
        for (int row = 0; row < wires.size(); row++) {
            wireRows.put(wires.get(row).key(), WireRows.y(top, row));
        }
        bottom = top + wires.size() * WireRows.ROW;
    }

    /** Draws a limit where it applies, with a label that may be empty. */
    void limit(DrawnLimit limit, Verdict verdict, String label) {
        String css = verdict == Verdict.PASS ? "lim" : "lim hot";
        if (limit instanceof DrawnLimit.Level level) {
            panel(level.signal()).ifPresent(panel -> level(panel, level, css, label));
        } else if (limit instanceof DrawnLimit.Curve curve) {
            panel(curve.signal()).ifPresent(panel -> curve(panel, curve, css, label));
        } else if (limit instanceof DrawnLimit.Time at && time.low() <= at.atUs() && at.atUs() <= time.high()) {
            y(at.signal(), at.level()).ifPresent(y -> post(time.at(at.atUs()), y, at.upper(), css, label));
        }
    }

    /** A post with feet that point to the side that is allowed. */
    private void post(double x, double y, boolean upper, String css, String label) {
        String foot = upper ? "h-5" : "h5";
        String top = "M" + Markup.px(x) + " " + Markup.px(y - 9);
        svgPath(svg, css, top + foot + top + "v18" + foot);
        if (!label.isEmpty()) {
            labels.add(x, y, label);
        }
    }

    /** A line with ticks at its ends that point to the side that is allowed. */
    private void level(Panel panel, DrawnLimit.Level level, String css, String label) {
        double from = panel.x(level.fromUs());
        double to = Math.max(from + 3, panel.x(level.toUs()));
        String tick = level.upper() ? "v4" : "v-4";
        String start = Markup.px(from) + " " + Markup.px(panel.y(level.start()));
        String end = Markup.px(to) + " " + Markup.px(panel.y(level.end()));
        svgPath(svg, css, "M" + start + tick + "M" + start + "L" + end + tick);
        if (!label.isEmpty()) {
            labels.add(to, panel.y(level.end()) + (level.upper() ? 0 : 20), label);
        }
    }

    /** A line through the curve's points, with ticks that point to the side that is allowed. */
    private void curve(Panel panel, DrawnLimit.Curve curve, String css, String label) {
        String tick = curve.upper() ? "v4" : "v-4";
        StringBuilder path = new StringBuilder();
        StringBuilder ticks = new StringBuilder();
        for (Polyline.Point point : curve.line().points()) {
            String at = Markup.px(panel.x(point.x())) + " " + Markup.px(panel.y(point.y()));
            path.append(path.isEmpty() ? "M" : "L").append(at);
            ticks.append("M").append(at).append(tick);
        }
        svgPath(svg, css, path.append(ticks).toString());
        if (!label.isEmpty()) {
            Polyline.Point last =
                    curve.line().points().get(curve.line().points().size() - 1);
            labels.add(panel.x(last.x()), panel.y(last.y()) + (curve.upper() ? 0 : 20), label);
        }
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
                labels.add(x, y, label);
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
        labels.draw(svg);
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
