package dev.lapwing.report;

import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Limit;
import dev.lapwing.finding.Mark;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import dev.lapwing.signal.Polyline;
import dev.lapwing.signal.Window;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/** A limit as it is drawn into a trace: where it applies, and nowhere else. */
sealed interface DrawnLimit {
    Signal signal();

    /**
     * A level that may not be passed during a stretch of bench time; sloping for a rate. {@code upper}: not above it.
     */
    record Level(Signal signal, double fromUs, double toUs, double start, double end, boolean upper)
            implements DrawnLimit {}

    /**
     * A time by which, or before which not, a level may be crossed or a wire may switch. {@code upper}: not after it.
     */
    record Time(Signal signal, double atUs, double level, boolean upper) implements DrawnLimit {}

    /** A curve that may not be passed; times in bench µs, levels in the base unit. {@code upper}: not above it. */
    record Curve(Signal signal, Polyline line, boolean upper) implements DrawnLimit {}

    /** The limits of a finding that have a place in its traces; none for one that counts or compares happenings. */
    static List<DrawnLimit> of(Finding finding, RunView view) {
        Optional<Check> check = view.check(finding);
        if (check.isEmpty() || finding.limit().isEmpty()) {
            return List.of();
        }
        double origin = view.originUs(finding).orElse(0L);
        Limit limit = finding.limit().get();
        if (check.get() instanceof Check.Crossing crossing) {
            return times(crossing.signal(), origin, crossing.level(), limit);
        }
        if (check.get() instanceof Check.WireSwitches switches) {
            return times(switches.wire(), origin, 0.5, limit);
        }
        if (check.get() instanceof Check.Leak leak) {
            return leak(leak, finding, limit);
        }
        if (check.get() instanceof Check.Stays stays) {
            return finding.window()
                    .map(w -> levels(stays.signal(), w, 0, limit))
                    .orElse(List.of());
        }
        if (check.get() instanceof Check.Follows follows) {
            List<DrawnLimit> curves = new ArrayList<>();
            follows.lower()
                    .ifPresent(line -> curves.add(new Curve(follows.signal(), inBenchTime(line, origin), false)));
            follows.upper().ifPresent(line -> curves.add(new Curve(follows.signal(), inBenchTime(line, origin), true)));
            return curves;
        }
        return quantity(check.get(), origin, finding, limit)
                .orElseGet(() -> settled(check.get(), origin, finding, limit));
    }

    /** Limits of times that count from the stimulus, drawn at the level at which they were told. */
    private static Optional<List<DrawnLimit>> quantity(Check check, double origin, Finding finding, Limit limit) {
        boolean timed = check instanceof Check.Onset
                || check instanceof Check.Recovery
                || (check instanceof Check.Response response && response.sinceStimulus());
        if (timed) {
            Signal signal = check.signals().get(0);
            return Optional.of(mark(finding, signal, 0)
                    .map(mark -> times(signal, origin, mark.value(), limit))
                    .orElse(List.of()));
        }
        if (check instanceof Check.Departure c) {
            // The mark lies as far from the remembered level as was measured.
            Optional<Double> level = mark(finding, c.signal(), 0)
                    .flatMap(mark -> finding.measured().map(off -> mark.value() - off.value()));
            return Optional.of(level.flatMap(
                            at -> finding.window().map(window -> levels(c.signal(), window, at, limit)))
                    .orElse(List.of()));
        }
        return Optional.empty();
    }

    private static Polyline inBenchTime(Polyline line, double originUs) {
        return new Polyline(line.points().stream()
                .map(point -> new Polyline.Point(originUs + point.x() * 1e6, point.y()))
                .toList());
    }

    /** Limits of a mean level, or of its difference from another measured one. */
    private static List<DrawnLimit> settled(Check check, double origin, Finding finding, Limit limit) {
        if (check instanceof Check.SettledLevel c) {
            return levels(c.signal(), after(origin, c.settled(), c.over()), c.target(), limit);
        }
        if (check instanceof Check.Agreement c) {
            return above(mark(finding, c.with(), 0), c.signal(), after(origin, c.settled(), c.over()), limit);
        }
        if (check instanceof Check.Movement c) {
            return above(mark(finding, c.signal(), 1), c.signal(), after(origin, c.settled(), c.over()), limit);
        }
        if (check instanceof Check.Repeat c) {
            return above(mark(finding, c.signal(), 1), c.signal(), after(origin, c.settled(), c.over()), limit);
        }
        if (check instanceof Check.Change c) {
            return above(mark(finding, c.signal(), 1), c.signal(), after(origin, c.to(), c.over()), limit);
        }
        return List.of();
    }

    private static Window after(double origin, double settled, double over) {
        return new Window((long) (origin + settled * 1e6), (long) (origin + (settled + over) * 1e6));
    }

    private static List<DrawnLimit> above(Optional<Mark> from, Signal signal, Window window, Limit limit) {
        return from.map(mark -> levels(signal, window, mark.value(), limit)).orElse(List.of());
    }

    /** The earliest mark of the signal, if it has more than so many. */
    private static Optional<Mark> mark(Finding finding, Signal signal, int others) {
        List<Mark> marks = finding.marks().stream()
                .filter(mark -> mark.signal().equals(signal.key()))
                .sorted(Comparator.comparingLong(Mark::timeUs))
                .toList();
        return marks.size() > others ? Optional.of(marks.get(0)) : Optional.empty();
    }

    private static List<DrawnLimit> levels(Signal signal, Window window, double target, Limit limit) {
        List<DrawnLimit> drawn = new ArrayList<>();
        limit.upper()
                .ifPresent(v ->
                        drawn.add(new Level(signal, window.fromUs(), window.toUs(), target + v, target + v, true)));
        limit.lower()
                .ifPresent(v ->
                        drawn.add(new Level(signal, window.fromUs(), window.toUs(), target + v, target + v, false)));
        return drawn;
    }

    private static List<DrawnLimit> times(Signal signal, double origin, double level, Limit limit) {
        List<DrawnLimit> drawn = new ArrayList<>();
        limit.upper().ifPresent(v -> drawn.add(new Time(signal, origin + v * 1e6, level, true)));
        limit.lower().ifPresent(v -> drawn.add(new Time(signal, origin + v * 1e6, level, false)));
        return drawn;
    }

    /** The fall that is still allowed, from the first measured point on. */
    private static List<DrawnLimit> leak(Check.Leak leak, Finding finding, Limit limit) {
        Optional<Mark> start = finding.marks().stream().findFirst();
        if (start.isEmpty() || limit.upper().isEmpty() || finding.window().isEmpty()) {
            return List.of();
        }
        Window window = finding.window().get();
        double fall = limit.upper().getAsDouble()
                * (limit.dimension() == leak.signal().dimension()
                        ? 1
                        : (window.toUs() - start.get().timeUs()) * 1e-6);
        double level = start.get().value();
        return List.of(new Level(leak.signal(), start.get().timeUs(), window.toUs(), level, level - fall, false));
    }
}
