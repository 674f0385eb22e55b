package dev.lapwing.report;

import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Limit;
import dev.lapwing.finding.Mark;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.signal.Window;
import java.util.ArrayList;
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

    /** The limits of a finding that have a place in its traces; none for one that compares figures of two places. */
    static List<DrawnLimit> of(Finding finding, RunView view) {
        Optional<Check> check = view.check(finding);
        if (check.isEmpty() || finding.limit().isEmpty()) {
            return List.of();
        }
        double origin = view.originUs(finding).orElse(0L);
        Limit limit = finding.limit().get();
        if (check.get() instanceof Check.SettledLevel level) {
            double from = origin + level.settled() * 1e6;
            return levels(
                    level.signal(), new Window((long) from, (long) (from + level.over() * 1e6)), level.target(), limit);
        }
        if (check.get() instanceof Check.Stays stays && finding.window().isPresent()) {
            return levels(stays.signal(), finding.window().get(), 0, limit);
        }
        if (check.get() instanceof Check.Crossing crossing) {
            return times(crossing.signal(), origin, crossing.level(), limit);
        }
        if (check.get() instanceof Check.WireSwitches switches) {
            return times(switches.wire(), origin, 0.5, limit);
        }
        if (check.get() instanceof Check.Leak leak) {
            return leak(leak, finding, limit);
        }
        return List.of();
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
                * (limit.dimension() == Dimension.PRESSURE_RATE
                        ? (window.toUs() - start.get().timeUs()) * 1e-6
                        : 1);
        double level = start.get().value();
        return List.of(new Level(leak.signal(), start.get().timeUs(), window.toUs(), level, level - fall, false));
    }
}
