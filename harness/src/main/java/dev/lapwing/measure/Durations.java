package dev.lapwing.measure;

import dev.lapwing.finding.Mark;
import dev.lapwing.measure.Measurement.Measured;
import dev.lapwing.measure.Measurement.NeverHappened;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import dev.lapwing.plan.PlannedCondition;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.signal.Edges;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Estimate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;

/** How long conditions hold: the stages of a warning, the length of an interruption. */
final class Durations {
    private final Sight sight;

    Durations(Sight sight) {
        this.sight = sight;
    }

    Measurement lasts(Check.Duration check) {
        Window window = sight.between(0, check.patience());
        String quantity = "how long it held";
        ConditionWatch watch = ConditionWatch.of(check.condition(), sight.originUs() - 1, sight.recording());
        watch.advance();
        Optional<Stretch> held = watch.truth().flatMap(truth -> first(truth, window));
        Window looked = held.map(stretch -> new Window(window.fromUs() - 1, stretch.toUs()))
                .orElse(window);
        Optional<Doubt> doubt = (held.isPresent() ? Optional.<Doubt>empty() : sight.cutShort(window.toUs()))
                .or(() -> sight.doubt(check.signals(), looked));
        if (doubt.isPresent()) {
            return doubt.get().of(quantity, looked);
        }
        List<Stretch> others = others(check.condition(), window);
        if (held.isEmpty()) {
            return nearly(others, check)
                    .<Measurement>map(near -> near.of(quantity, looked))
                    .orElseGet(() -> neverEnded(watch, window, quantity, check));
        }
        Stretch stretch = held.get();
        double seconds = stretch.seconds();
        Estimate end = new Estimate(seconds, Dimension.TIME, watch.doubts(stretch.toUs(), seconds));
        Estimate start = new Estimate(0, Dimension.TIME, watch.doubts(stretch.fromUs(), 0));
        Estimate lasted = end.minus(start);
        double room = EventOrder.JUMP * lasted.expanded() + Watched.WIDTH_US * 1e-6;
        OptionalDouble off = others.stream()
                .mapToDouble(other -> Math.abs(other.seconds() - seconds))
                .filter(other -> other > room)
                .max();
        Estimate told = off.isPresent() ? lasted.with(new Component("level close by", off.getAsDouble() / 2)) : lasted;
        return new Measured(told, quantity, marks(check.signals().get(0), stretch), looked);
    }

    /** The first stretches with every level easier and harder to reach by its channel's expanded uncertainty. */
    private List<Stretch> others(PlannedCondition condition, Window window) {
        return Stream.of(EventOrder.PERHAPS, EventOrder.SURELY)
                .map(ease -> ConditionWatch.of(condition, sight.originUs() - 1, sight.recording(), ease))
                .peek(ConditionWatch::advance)
                .flatMap(watch -> watch.truth().flatMap(truth -> first(truth, window)).stream())
                .toList();
    }

    /** What did not begin or end by less than its doubt may have lasted as it should. */
    private static Optional<Doubt> nearly(List<Stretch> others, Check.Duration check) {
        return others.stream()
                .filter(other -> check.limit().margin(other.seconds()) >= 0)
                .findFirst()
                .map(other -> new Doubt(
                        "a level was missed by less than its uncertainty, so that it cannot be told whether it held",
                        "choose a level that is surely passed, or use a better transducer"));
    }

    /** A stretch in which it held, from its beginning to its end. */
    record Stretch(long fromUs, long toUs) {
        double seconds() {
            return (toUs - fromUs) * 1e-6;
        }
    }

    /** The first such stretch within the window, once it is known whole. */
    static Optional<Stretch> first(Edges truth, Window window) {
        for (int i = 0; i + 1 < truth.size(); i++) {
            if (truth.level(i) && truth.timeUs(i) >= window.fromUs() && truth.timeUs(i + 1) <= window.toUs()) {
                return Optional.of(new Stretch(truth.timeUs(i), truth.timeUs(i + 1)));
            }
        }
        return Optional.empty();
    }

    private Measurement neverEnded(ConditionWatch watch, Window window, String quantity, Check.Duration check) {
        String within = " within " + sight.words().value(check.patience(), Dimension.TIME);
        boolean began = watch.firstBeganUs().isPresent() && watch.firstBeganUs().getAsLong() <= window.toUs();
        if (!began && watch.firstHeldUs().isPresent() && watch.firstHeldUs().getAsLong() < window.fromUs()) {
            return new Doubt("it held already before the stimulus", "let it start from the other side")
                    .of(quantity, window);
        }
        return new NeverHappened(
                (began ? "it began to hold and did not end" : "it did not begin to hold") + within,
                Optional.empty(),
                0,
                quantity,
                List.of(),
                window);
    }

    private List<Mark> marks(Signal signal, Stretch stretch) {
        return List.of(
                new Mark(signal.key(), stretch.fromUs(), valueAt(signal, stretch.fromUs()), "from here"),
                new Mark(signal.key(), stretch.toUs(), valueAt(signal, stretch.toUs()), "to here"));
    }

    private double valueAt(Signal signal, long timeUs) {
        return new Conditions(sight).valueAt(signal, timeUs);
    }
}
