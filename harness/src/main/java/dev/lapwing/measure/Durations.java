package dev.lapwing.measure;

import dev.lapwing.finding.Mark;
import dev.lapwing.measure.Measurement.Measured;
import dev.lapwing.measure.Measurement.NeverHappened;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.signal.Edges;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Estimate;
import java.util.List;
import java.util.Optional;

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
        if (held.isEmpty()) {
            return neverEnded(watch, window, quantity, check);
        }
        Stretch stretch = held.get();
        double seconds = (stretch.toUs() - stretch.fromUs()) * 1e-6;
        Estimate end = new Estimate(seconds, Dimension.TIME, watch.doubts(stretch.toUs(), seconds));
        Estimate start = new Estimate(0, Dimension.TIME, watch.doubts(stretch.fromUs(), 0));
        return new Measured(end.minus(start), quantity, marks(check.signals().get(0), stretch), looked);
    }

    /** A stretch in which it held, from its beginning to its end. */
    record Stretch(long fromUs, long toUs) {}

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
