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
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.stream.Stream;

/**
 * In what order two events came, and how long lay between. Each is looked for again with every level easier and harder
 * to reach by its channel's expanded uncertainty: an event that nearly came earlier, or only just came, has no one
 * instant, and the time between is in doubt by what that makes of it.
 */
final class EventOrder {
    /** Levels easier to reach by U: when an event may have come. */
    static final double PERHAPS = 1;
    /** Levels harder to reach by U: when it surely had. */
    static final double SURELY = -1;
    /** An instant that moves by more of its own doubt than this has jumped. Common practice, no source. */
    static final double JUMP = 2;

    private final Sight sight;

    EventOrder(Sight sight) {
        this.sight = sight;
    }

    /**
     * One of the two.
     *
     * @param which   {@code first} or {@code second}
     * @param beganUs when it came, if it did in time
     * @param maybeUs when it may have come
     * @param surelyUs when it surely had
     */
    private record Event(
            PlannedCondition condition,
            String which,
            ConditionWatch watch,
            OptionalLong beganUs,
            OptionalLong maybeUs,
            OptionalLong surelyUs) {

        /** As it came, or else may have come. */
        OptionalLong bestUs() {
            return beganUs.isPresent() ? beganUs : maybeUs;
        }

        boolean nearly() {
            return beganUs.isEmpty() && maybeUs.isPresent();
        }

        List<Component> doubts(double seconds) {
            return watch.doubts(beganUs.orElseThrow(), seconds);
        }

        /** What it adds to the doubt that a level was close by at another time; by how much that is the expanded. */
        Optional<Component> closeBy() {
            double room = JUMP * new Estimate(0, Dimension.TIME, doubts(0)).expanded() + Watched.WIDTH_US * 1e-6;
            return Stream.of(maybeUs, surelyUs)
                    .flatMapToLong(OptionalLong::stream)
                    .mapToDouble(us -> Math.abs(us - beganUs.orElseThrow()) * 1e-6)
                    .filter(off -> off > room)
                    .max()
                    .stream()
                    .mapToObj(off -> new Component("level close by/" + which, off / 2))
                    .findFirst();
        }
    }

    Measurement comesBefore(Check.ComesBefore check) {
        Window planned = sight.between(0, check.patience());
        String quantity = "time from the first to the second";
        Event first = event(check.first(), "first", planned);
        Event then = event(check.then(), "second", planned);
        boolean both = first.beganUs.isPresent() && then.beganUs.isPresent();
        long lastUs = both ? Math.max(first.beganUs.getAsLong(), then.beganUs.getAsLong()) : planned.toUs();
        Window looked = new Window(planned.fromUs() - 1, Math.max(planned.fromUs(), lastUs));
        Optional<Doubt> doubt = sight.cutShort(looked.toUs())
                .or(() -> sight.doubt(check.signals(), looked))
                .or(() -> already(first))
                .or(() -> already(then));
        if (doubt.isPresent()) {
            return doubt.get().of(quantity, looked);
        }
        if (!both) {
            return nearlyCame(first, then, check)
                    .<Measurement>map(near -> near.of(quantity, looked))
                    .orElseGet(() -> neverCame(first, then, quantity, planned, check.patience()));
        }
        double seconds = (then.beganUs.getAsLong() - first.beganUs.getAsLong()) * 1e-6;
        Estimate between = new Estimate(seconds, Dimension.TIME, then.doubts(seconds))
                .minus(new Estimate(0, Dimension.TIME, first.doubts(0)));
        for (Event event : List.of(first, then)) {
            between = event.closeBy().map(between::with).orElse(between);
        }
        return new Measured(between, quantity, List.of(mark(first), mark(then)), looked);
    }

    private Event event(PlannedCondition condition, String which, Window planned) {
        ConditionWatch watch = follow(condition, 0);
        return new Event(
                condition,
                which,
                watch,
                within(watch.firstBeganUs(), planned),
                within(follow(condition, PERHAPS).firstBeganUs(), planned),
                within(follow(condition, SURELY).firstBeganUs(), planned));
    }

    private ConditionWatch follow(PlannedCondition condition, double ease) {
        ConditionWatch watch = ConditionWatch.of(condition, sight.originUs() - 1, sight.recording(), ease);
        watch.advance();
        return watch;
    }

    private static OptionalLong within(OptionalLong atUs, Window window) {
        return atUs.isPresent() && atUs.getAsLong() <= window.toUs() ? atUs : OptionalLong.empty();
    }

    /** What held before the stimulus and never began anew cannot be put in order. */
    private static Optional<Doubt> already(Event event) {
        return event.beganUs.isEmpty() && event.watch.firstHeldUs().isPresent()
                ? Optional.of(new Doubt(
                        "the " + event.which + " of the two held already before the stimulus",
                        "let it start from the other side"))
                : Optional.empty();
    }

    /** What came within its doubt of its level may have come after all; unless that would be wrong just as well. */
    private static Optional<Doubt> nearlyCame(Event first, Event then, Check.ComesBefore check) {
        if (first.bestUs().isEmpty() || then.bestUs().isEmpty()) {
            return Optional.empty();
        }
        double seconds = (then.bestUs().getAsLong() - first.bestUs().getAsLong()) * 1e-6;
        if (check.limit().margin(seconds) < 0) {
            return Optional.empty();
        }
        String which = first.nearly() && then.nearly() ? "both" : "the " + (first.nearly() ? "first" : "second");
        return Optional.of(new Doubt(
                which + " of the two came within the uncertainty of a level and did not reach it",
                "choose a level that is surely reached, or use a better transducer"));
    }

    private Measurement neverCame(Event first, Event then, String quantity, Window planned, double patience) {
        String within = " within " + sight.words().value(patience, Dimension.TIME);
        String clause;
        if (first.beganUs.isEmpty() && then.beganUs.isEmpty()) {
            clause = "neither of the two came" + within;
        } else {
            clause = first.beganUs.isEmpty()
                    ? "the second came and the first did not" + within
                    : "the first came and the second did not" + within;
        }
        return new NeverHappened(clause, Optional.empty(), 0, quantity, List.of(), planned);
    }

    private Mark mark(Event event) {
        Signal signal = event.condition.signals().get(0);
        long atUs = event.beganUs.orElseThrow();
        return new Mark(signal.key(), atUs, new Conditions(sight).valueAt(signal, atUs), event.which);
    }
}
