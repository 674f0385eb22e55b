package dev.lapwing.measure;

import dev.lapwing.finding.Mark;
import dev.lapwing.measure.Measurement.Measured;
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

/** How often conditions held. */
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
        Optional<Doubt> doubt = surely > 0
                ? Optional.empty()
                : sight.unfinished(check.over()).or(() -> sight.doubt(check.condition(), window));
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
        ConditionWatch watch = ConditionWatch.of(condition, window.fromUs(), sight.recording(), new Ease(ease, 0));
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
}
