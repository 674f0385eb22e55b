package dev.lapwing.measure;

import dev.lapwing.plan.PlannedCondition;
import dev.lapwing.signal.Edges;
import dev.lapwing.signal.Window;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.stream.IntStream;
import java.util.stream.LongStream;

/**
 * When a condition held, noise left aside: what noise alone carries over a level and back neither begins nor ends it.
 * It is followed with its levels as they are, and with each easier and harder to reach by what noise can do. A stage
 * lasts as long as the easier levels are held, and holds the harder ones at least once; where its level was passed back
 * and forth on the way, it began, or ended, in the middle between the first and the last time.
 */
final class Stages {
    /** A step is timed by the samples, anything else by means, which lie apart by no more than this, in µs. */
    private static final long APART_US = Watched.WIDTH_US;

    private final ConditionWatch watch;
    private final ConditionWatch easier;
    private final ConditionWatch harder;

    private Stages(ConditionWatch watch, ConditionWatch easier, ConditionWatch harder) {
        this.watch = watch;
        this.easier = easier;
        this.harder = harder;
    }

    /**
     * @param fromUs bench time from which it is followed
     * @param ease   of every level
     */
    static Stages of(PlannedCondition condition, long fromUs, Recording recording, Ease ease) {
        return new Stages(
                ConditionWatch.of(condition, fromUs, recording, ease),
                ConditionWatch.of(condition, fromUs, recording, ease.looser()),
                ConditionWatch.of(condition, fromUs, recording, ease.tighter()));
    }

    /**
     * A stretch in which it held.
     *
     * @param fromUs when it began
     * @param toUs   when it ended
     * @param rise   a change of its truth by which it began: where the doubt of that is to be had
     * @param fall   one by which it ended
     */
    record Stage(long fromUs, long toUs, long rise, long fall) {
        double seconds() {
            return (toUs - fromUs) * 1e-6;
        }
    }

    /** A beginning or an end: the middle of the changes that it is made of, and the first of those. */
    private record Turn(long atUs, long changeUs) {}

    /** When it began, and a change of truth by which it did; empty if it has not yet, from not having held. */
    record Began(long atUs, long rise) {}

    /** Takes in what has been reported since. */
    void advance() {
        watch.advance();
        easier.advance();
        harder.advance();
    }

    /** As its levels are. */
    ConditionWatch watch() {
        return watch;
    }

    /** True if it held when it was first looked at. */
    boolean heldAtFirst() {
        return watch.truth().filter(truth -> truth.at(truth.fromUs())).isPresent();
    }

    /** The first stage that lies in the window, once it is known whole. */
    Optional<Stage> first(Window window) {
        for (Window loose : loose()) {
            Optional<Turn> from = beginning(loose).filter(turn -> turn.atUs >= window.fromUs());
            Optional<Turn> to = from.isPresent() ? end(loose) : Optional.empty();
            if (to.filter(turn -> turn.atUs <= window.toUs()).isPresent()) {
                return Optional.of(new Stage(from.get().atUs, to.get().atUs, from.get().changeUs, to.get().changeUs));
            }
        }
        return Optional.empty();
    }

    /** The first beginning after it was first looked at, once it is known. */
    Optional<Began> began() {
        return loose().stream()
                .flatMap(loose -> beginning(loose).stream())
                .map(turn -> new Began(turn.atUs, turn.changeUs))
                .findFirst();
    }

    /** Stretches in which the easier levels were held; one that goes on ends at {@link Long#MAX_VALUE}. */
    private List<Window> loose() {
        List<Window> stretches = new ArrayList<>();
        if (easier.truth().isEmpty()) {
            return stretches;
        }
        Edges truth = easier.truth().get();
        long fromUs = truth.fromUs();
        boolean holds = truth.at(fromUs);
        for (int i = truth.firstAfter(fromUs); i < truth.size(); i++) {
            if (holds) {
                stretches.add(new Window(fromUs, truth.timeUs(i)));
            }
            fromUs = truth.timeUs(i);
            holds = truth.level(i);
        }
        if (holds) {
            stretches.add(new Window(fromUs, Long.MAX_VALUE));
        }
        return stretches;
    }

    private Optional<Turn> beginning(Window loose) {
        OptionalLong surely =
                changes(harder, true, loose.fromUs(), loose.toUs()).findFirst();
        boolean known = surely.isPresent() && surely.getAsLong() + APART_US <= watch.knownUntilUs();
        if (!known
                || heldAtFirst()
                        && loose.fromUs() == watch.truth().orElseThrow().fromUs()) {
            return Optional.empty();
        }
        return turn(true, loose.fromUs(), surely.getAsLong());
    }

    private Optional<Turn> end(Window loose) {
        if (loose.toUs() > watch.knownUntilUs() - APART_US) {
            return Optional.empty();
        }
        long surely = changes(harder, false, loose.fromUs(), loose.toUs()).max().orElse(loose.fromUs());
        return turn(false, surely, loose.toUs());
    }

    /** The changes from one time to another; where steps are timed otherwise than means, those close by. */
    private Optional<Turn> turn(boolean rising, long fromUs, long toUs) {
        return middle(rising, fromUs, toUs).or(() -> middle(rising, fromUs - APART_US, toUs + APART_US));
    }

    private Optional<Turn> middle(boolean rising, long fromUs, long toUs) {
        long[] changes = changes(watch, rising, fromUs, toUs).toArray();
        return changes.length == 0
                ? Optional.empty()
                : Optional.of(new Turn(changes[0] + (changes[changes.length - 1] - changes[0]) / 2, changes[0]));
    }

    private static LongStream changes(ConditionWatch of, boolean rising, long fromUs, long toUs) {
        Edges truth = of.truth().orElseThrow();
        return IntStream.range(truth.firstAfter(fromUs - 1), truth.size())
                .takeWhile(i -> truth.timeUs(i) <= toUs)
                .filter(i -> truth.level(i) == rising)
                .mapToLong(truth::timeUs);
    }
}
