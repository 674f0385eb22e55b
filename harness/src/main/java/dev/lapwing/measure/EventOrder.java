package dev.lapwing.measure;

import dev.lapwing.finding.Mark;
import dev.lapwing.measure.Measurement.Measured;
import dev.lapwing.measure.Measurement.NeverHappened;
import dev.lapwing.measure.Stages.Began;
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
    private final Sight sight;

    EventOrder(Sight sight) {
        this.sight = sight;
    }

    /**
     * One of the two.
     *
     * @param which   {@code first} or {@code second}
     * @param rise    a change of truth by which it came, where its doubt is to be had
     * @param beganUs when it came, if it did in time
     * @param maybeUs when it may have come
     * @param surelyUs when it surely had
     */
    private record Event(
            PlannedCondition condition,
            String which,
            Stages stages,
            OptionalLong rise,
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
            return stages.watch().doubts(rise.orElseThrow(), seconds);
        }

        /** It came, but by so little that it may not have. */
        boolean barely() {
            return beganUs.isPresent() && (maybeUs.isEmpty() || surelyUs.isEmpty());
        }

        /** By how much it may have come earlier or later with its levels moved, in s. */
        double off() {
            return Stream.of(maybeUs, surelyUs)
                    .flatMapToLong(OptionalLong::stream)
                    .mapToDouble(us -> Math.abs(us - beganUs.orElseThrow()) * 1e-6)
                    .max()
                    .orElse(0);
        }

        /** What it adds to the doubt that a level was close by at another time. */
        Optional<Component> closeBy() {
            return CloseBy.of(new Estimate(0, Dimension.TIME, doubts(0)), off(), "level close by/" + which);
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
                .or(() -> sight.doubt(check.first(), looked))
                .or(() -> sight.doubt(check.then(), looked))
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
            if (event.barely() && check.limit().margin(seconds) >= 0) {
                return new Doubt(
                                "the " + event.which
                                        + " of the two passed a level by less than its uncertainty, so that"
                                        + " it cannot be told whether it came",
                                CloseBy.MEND)
                        .of(quantity, looked);
            }
            between = event.closeBy().map(between::with).orElse(between);
        }
        return new Measured(between, quantity, List.of(mark(first), mark(then)), looked);
    }

    private Event event(PlannedCondition condition, String which, Window planned) {
        Stages stages = stages(condition, Ease.NONE);
        Optional<Began> began = within(stages, planned);
        return new Event(
                condition,
                which,
                stages,
                began.stream().mapToLong(Began::rise).findFirst(),
                time(began),
                time(within(stages(condition, began.isPresent() ? Ease.PERHAPS : Ease.AT_ALL), planned)),
                time(within(stages(condition, Ease.SURELY), planned)));
    }

    private Stages stages(PlannedCondition condition, Ease ease) {
        Stages stages = Stages.of(condition, sight.originUs() - 1, sight.recording(), ease);
        stages.advance();
        return stages;
    }

    private static Optional<Began> within(Stages stages, Window window) {
        return stages.began().filter(began -> began.atUs() <= window.toUs());
    }

    private static OptionalLong time(Optional<Began> began) {
        return began.stream().mapToLong(Began::atUs).findFirst();
    }

    /** What held before the stimulus and never began anew cannot be put in order. */
    private static Optional<Doubt> already(Event event) {
        return event.beganUs.isEmpty() && event.stages.heldAtFirst()
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
