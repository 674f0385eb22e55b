package dev.lapwing.report;

import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Mark;
import dev.lapwing.finding.Verdict;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Course;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.signal.Window;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;

/** The traces around one finding, sample by sample where there is room, with its limit and every measured point. */
final class CloseUp {
    private static final long ORIGIN_WITHIN_US = 30_000_000;

    private final RunView view;
    private final Finding finding;
    private final List<DrawnLimit> limits;
    private final List<Signal> signals;

    private CloseUp(RunView view, Finding finding) {
        this.view = view;
        this.finding = finding;
        this.limits = DrawnLimit.of(finding, view);
        Set<String> keys = new LinkedHashSet<>();
        view.check(finding).ifPresent(check -> check.signals().forEach(signal -> keys.add(signal.key())));
        finding.marks().forEach(mark -> keys.add(mark.signal()));
        this.signals = view.signals().stream()
                .filter(signal -> keys.contains(signal.key()))
                .toList();
    }

    /** False where there is nothing to be seen: no window or no signal. */
    static boolean worthwhile(RunView view, Finding finding) {
        return finding.window().isPresent() && !new CloseUp(view, finding).signals.isEmpty();
    }

    static Markup of(RunView view, Finding finding) {
        return new CloseUp(view, finding).draw(finding.window().orElseThrow());
    }

    private Markup draw(Window window) {
        double[] span = span(window);
        Chart chart = new Chart(view, new Axis(span[0], span[1], Chart.LEFT, Chart.RIGHT));
        signals.stream()
                .filter(s -> !s.digital())
                .map(Signal::dimension)
                .distinct()
                .forEach(dimension -> {
                    List<Signal> together = signals.stream()
                            .filter(s -> !s.digital() && s.dimension() == dimension)
                            .toList();
                    String title = together.size() == 1 ? together.get(0).spoken() : "pressures";
                    chart.panel(title, together, levels(together), 170, false, 1);
                });
        chart.wires(signals.stream().filter(Signal::digital).toList());
        double origin = view.originUs(finding).map(Long::doubleValue).orElse(0.0);
        moments(chart, span, origin);
        limits.forEach(limit -> chart.limit(limit, Verdict.FAIL, label(limit)));
        finding.marks().forEach(mark -> chart.mark(mark, finding, mark.label()));
        String title = origin == 0
                ? "bench time, s"
                : "s after the stimulus, which was at " + seconds(origin) + " s of bench time";
        return chart.close(title, origin, "Traces around " + finding.id());
    }

    /** The limit as it is drawn, in words; a level that slopes is what a leak may take. */
    private String label(DrawnLimit limit) {
        if (limit instanceof DrawnLimit.Level level && level.start() != level.end()) {
            return "allowed fall";
        }
        if (limit instanceof DrawnLimit.Curve curve) {
            return curve.upper() ? "not above the curve" : "not below the curve";
        }
        boolean upper = limit instanceof DrawnLimit.Level level ? level.upper() : ((DrawnLimit.Time) limit).upper();
        if (limit instanceof DrawnLimit.Level level) {
            Dimension dimension = level.signal().dimension();
            String figure = view.display().written(level.end(), dimension);
            return (upper ? "at most " : "at least ") + figure;
        }
        double seconds =
                (((DrawnLimit.Time) limit).atUs() - view.originUs(finding).orElse(0L)) * 1e-6;
        String figure = Figures.of(Dimension.TIME, seconds, view.display()).written(seconds, true);
        return (upper ? "at most " : "not before ") + figure;
    }

    private static String seconds(double us) {
        return String.format(Locale.ROOT, "%.3f", us * 1e-6);
    }

    private void moments(Chart chart, double[] span, double origin) {
        for (Course.Executed command : view.course().executed()) {
            long at = command.atUs().orElse(command.dueUs());
            if (span[0] <= at && at <= span[1]) {
                chart.moment(at, command.text());
                if (Math.abs(at - origin) < 1000) {
                    chart.caption(at, command.text());
                }
            }
        }
    }

    /** From a little before the first thing that matters to a little after the last. */
    private double[] span(Window window) {
        List<Double> times = new ArrayList<>();
        finding.marks().forEach(mark -> times.add((double) mark.timeUs()));
        limits.stream()
                .filter(DrawnLimit.Time.class::isInstance)
                .map(DrawnLimit.Time.class::cast)
                .forEach(limit -> times.add(limit.atUs()));
        boolean timed =
                times.size() > finding.marks().size() && !finding.marks().isEmpty();
        Optional<Long> origin = view.originUs(finding);
        if (!timed) {
            times.add((double) window.fromUs());
            times.add((double) window.toUs());
        }
        // How a level was reached tells more than the level: from the stimulus on, unless that is long ago.
        origin.filter(at -> timed || window.fromUs() - at <= ORIGIN_WITHIN_US).ifPresent(at -> times.add((double) at));
        double from = times.stream().mapToDouble(t -> t).min().orElse(window.fromUs());
        double to = times.stream().mapToDouble(t -> t).max().orElse(window.toUs());
        double room = Math.max((to - from) * 0.08, 20_000);
        return new double[] {
            Math.max(view.beginUs(), from - room), Math.max(from + room, Math.min(view.endUs(), to + room))
        };
    }

    private List<Double> levels(List<Signal> together) {
        List<Double> levels = new ArrayList<>();
        for (DrawnLimit limit : limits) {
            if (together.contains(limit.signal())) {
                if (limit instanceof DrawnLimit.Level level) {
                    levels.add(level.start());
                    levels.add(level.end());
                } else if (limit instanceof DrawnLimit.Curve curve) {
                    curve.line().points().forEach(point -> levels.add(point.y()));
                } else if (limit instanceof DrawnLimit.Time at) {
                    levels.add(at.level());
                }
            }
        }
        Set<String> keys = new LinkedHashSet<>();
        together.forEach(signal -> keys.add(signal.key()));
        finding.marks().stream()
                .filter(mark -> keys.contains(mark.signal()))
                .map(Mark::value)
                .forEach(levels::add);
        return levels;
    }
}
