package dev.lapwing.report;

import dev.lapwing.quantity.Unit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;

/**
 * One set of axes in a chart, with its traces. Levels come in base units and are shown in the panel's unit.
 *
 * @param time  bench time in µs to places
 * @param level figures of the unit to places
 * @param unit  of the level axis
 */
record Panel(Markup svg, Axis time, Axis level, Unit unit) {
    /** Least distance of two names at the right end, in pixels. */
    private static final double NAME_HEIGHT = 11;

    /** A name at the right end of a line. */
    record Name(String group, String end, double y) {}

    /** Frame, ticks and title. */
    void frame(String title, int ticks) {
        double top = Math.min(level.from(), level.to());
        double height = Math.abs(level.from() - level.to());
        for (Axis.Tick tick : level.ticks(ticks)) {
            String y = Markup.px(level.at(tick.value()));
            svg.empty(
                    "path", "class", "grid", "d", "M" + Markup.px(time.from()) + " " + y + "H" + Markup.px(time.to()));
            svg.element(
                    "text",
                    tick.label(),
                    "class",
                    "tick e",
                    "x",
                    Markup.px(time.from() - 6),
                    "y",
                    Markup.px(level.at(tick.value()) + 3.5));
        }
        svg.empty(
                "rect",
                "class",
                "frame",
                "x",
                Markup.px(time.from()),
                "y",
                Markup.px(top),
                "width",
                Markup.px(time.to() - time.from()),
                "height",
                Markup.px(height));
        svg.element("text", title, "class", "title", "x", Markup.px(time.from()), "y", Markup.px(top - 5))
                .line();
    }

    /** Draws a trace and gives the name for its end. */
    List<Name> trace(ShownSamples samples, Line line, int grain) {
        Axis base = new Axis(unit.toBase(level.low()), unit.toBase(level.high()), level.from(), level.to());
        String path = TracePath.of(samples, time, base, grain);
        if (path.isEmpty()) {
            return List.of();
        }
        svg.empty("path", "class", line.css(), "d", path).line();
        return List.of(new Name(line.group(), line.end(), base.within(samples.value(samples.size() - 1))));
    }

    double y(double base) {
        return level.within(unit.fromBase(base));
    }

    double x(double timeUs) {
        return time.within(timeUs);
    }

    /** Names at the right end, those at one height put together, none over another. */
    void names(List<Name> names) {
        List<Name> together = new ArrayList<>();
        names.stream().sorted(Comparator.comparingDouble(Name::y)).forEach(name -> {
            for (int i = 0; i < together.size(); i++) {
                Name other = together.get(i);
                if (other.group.equals(name.group) && Math.abs(other.y - name.y) < NAME_HEIGHT * 0.8) {
                    together.set(i, new Name(name.group, sorted(other.end, name.end), other.y));
                    return;
                }
            }
            together.add(name);
        });
        double bottom = Math.max(level.from(), level.to()) + 4;
        double next = Math.min(level.from(), level.to()) + 4;
        for (int i = 0; i < together.size(); i++) {
            double latest = bottom - NAME_HEIGHT * (together.size() - 1 - i);
            double y = Math.min(Math.max(next, together.get(i).y + 3.5), latest);
            String text = (together.get(i).group + " " + together.get(i).end).strip();
            svg.element("text", text, "class", "name", "x", Markup.px(time.to() + 6), "y", Markup.px(y));
            next = y + NAME_HEIGHT;
        }
    }

    private static String sorted(String some, String more) {
        return String.join(
                " ", Stream.of((some + " " + more).split(" ")).sorted().toList());
    }
}
