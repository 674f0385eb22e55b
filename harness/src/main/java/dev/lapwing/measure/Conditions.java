package dev.lapwing.measure;

import dev.lapwing.finding.Mark;
import dev.lapwing.measure.Measurement.Measured;
import dev.lapwing.measure.Measurement.NeverHappened;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import dev.lapwing.plan.PlannedCondition;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Estimate;
import dev.lapwing.uncertainty.Instrument;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

/** How often conditions held, and in what order they came. */
final class Conditions {
    private final Sight sight;

    Conditions(Sight sight) {
        this.sight = sight;
    }

    /**
     * Counted as read, and again with every level eased and tightened by its channel's expanded uncertainty and every
     * duration by its stamps: where the counts differ, the count is in doubt by as much.
     */
    Measurement never(Check.NeverHolds check) {
        Window window = sight.over(check.over());
        Window looked = sight.watched(window);
        String quantity = "number of times that it held"
                + (check.longerThan() > 0
                        ? " for longer than " + sight.words().value(check.longerThan(), Dimension.TIME)
                        : "");
        List<Signal> signals = check.condition().signals();
        double loose = signals.stream().mapToDouble(this::stampBound).sum();
        List<Window> held = held(check.condition(), looked, 0, check.longerThan());
        int surely =
                held(check.condition(), looked, -1, check.longerThan() + loose).size();
        int perhaps =
                held(check.condition(), looked, 1, check.longerThan() - loose).size();
        int doubtful = Math.max(Math.abs(perhaps - held.size()), Math.abs(held.size() - surely));
        Estimate count = new Estimate(
                held.size(),
                Dimension.COUNT,
                doubtful == 0 ? List.of() : List.of(new Component("level or stamp", doubtful / 2.0)));
        Optional<Doubt> doubt =
                surely > 0 ? Optional.empty() : sight.unfinished(check.over()).or(() -> sight.doubt(signals, window));
        return doubt.<Measurement>map(d -> d.of(quantity, window))
                .orElseGet(() -> new Measured(count, quantity, marks(signals, held), looked));
    }

    private double stampBound(Signal signal) {
        return instrument(signal).map(i -> i.instantBoundUs() * 1e-6).orElse(0.0);
    }

    private Optional<Instrument> instrument(Signal signal) {
        return signal instanceof Signal.Wire wire
                ? sight.recording().switched(wire).map(Switched::instrument)
                : sight.recording().sampled(signal).map(Sampled::instrument);
    }

    private List<Window> held(PlannedCondition condition, Window window, double ease, double longerThan) {
        ConditionWatch watch = ConditionWatch.of(condition, window.fromUs(), sight.recording(), ease);
        watch.advance();
        return watch.truth().map(truth -> Stretches.of(truth, window)).orElse(List.of()).stream()
                .filter(stretch -> stretch.seconds() > longerThan)
                .toList();
    }

    private List<Mark> marks(List<Signal> signals, List<Window> held) {
        String key = signals.get(0).key();
        return held.stream()
                .limit(5)
                .map(stretch ->
                        new Mark(key, stretch.fromUs(), valueAt(signals.get(0), stretch.fromUs()), "held from here"))
                .toList();
    }

    /** What the signal was at then; a wire counts 0 or 1. */
    double valueAt(Signal signal, long timeUs) {
        if (signal instanceof Signal.Wire wire) {
            return sight.recording()
                            .switched(wire)
                            .filter(s -> s.edges().at(timeUs))
                            .isPresent()
                    ? 1
                    : 0;
        }
        return sight.recording()
                .sampled(signal)
                .map(Sampled::trace)
                .map(trace -> trace.value(Math.min(trace.size() - 1, trace.firstAtOrAfter(timeUs))))
                .orElse(0.0);
    }

    Measurement comesBefore(Check.ComesBefore check) {
        Window planned = sight.between(0, check.patience());
        String quantity = "time from the first to the second";
        ConditionWatch first = follow(check.first());
        ConditionWatch then = follow(check.then());
        OptionalLong firstUs = within(first.firstBeganUs(), planned);
        OptionalLong thenUs = within(then.firstBeganUs(), planned);
        long lastUs = firstUs.isPresent() && thenUs.isPresent()
                ? Math.max(firstUs.getAsLong(), thenUs.getAsLong())
                : planned.toUs();
        Window looked = new Window(planned.fromUs() - 1, Math.max(planned.fromUs(), lastUs));
        List<Signal> signals = check.signals();
        Optional<Doubt> doubt = sight.cutShort(looked.toUs())
                .or(() -> sight.doubt(signals, looked))
                .or(() -> already(first, firstUs, "first"))
                .or(() -> already(then, thenUs, "second"));
        if (doubt.isPresent()) {
            return doubt.get().of(quantity, looked);
        }
        if (firstUs.isEmpty() || thenUs.isEmpty()) {
            return neverCame(firstUs, thenUs, quantity, planned, check.patience());
        }
        double seconds = (thenUs.getAsLong() - firstUs.getAsLong()) * 1e-6;
        Estimate thenAt = new Estimate(seconds, Dimension.TIME, then.doubts(thenUs.getAsLong(), seconds));
        Estimate firstAt = new Estimate(0, Dimension.TIME, first.doubts(firstUs.getAsLong(), 0));
        List<Mark> marks = List.of(
                mark(check.first(), firstUs.getAsLong(), "first"), mark(check.then(), thenUs.getAsLong(), "second"));
        return new Measured(thenAt.minus(firstAt), quantity, marks, looked);
    }

    private Mark mark(PlannedCondition condition, long atUs, String label) {
        Signal signal = condition.signals().get(0);
        return new Mark(signal.key(), atUs, valueAt(signal, atUs), label);
    }

    private ConditionWatch follow(PlannedCondition condition) {
        ConditionWatch watch = ConditionWatch.of(condition, sight.originUs() - 1, sight.recording());
        watch.advance();
        return watch;
    }

    private static OptionalLong within(OptionalLong atUs, Window window) {
        return atUs.isPresent() && atUs.getAsLong() <= window.toUs() ? atUs : OptionalLong.empty();
    }

    /** What held before the stimulus and never began anew cannot be put in order. */
    private static Optional<Doubt> already(ConditionWatch watch, OptionalLong beganUs, String which) {
        return beganUs.isEmpty() && watch.firstHeldUs().isPresent()
                ? Optional.of(new Doubt(
                        "the " + which + " of the two held already before the stimulus",
                        "let it start from the other side"))
                : Optional.empty();
    }

    private Measurement neverCame(
            OptionalLong first, OptionalLong then, String quantity, Window planned, double patience) {
        String within = " within " + sight.words().value(patience, Dimension.TIME);
        String clause;
        if (first.isEmpty() && then.isEmpty()) {
            clause = "neither of the two came" + within;
        } else {
            clause = first.isEmpty()
                    ? "the second came and the first did not" + within
                    : "the first came and the second did not" + within;
        }
        return new NeverHappened(clause, Optional.empty(), 0, quantity, List.of(), planned);
    }
}
