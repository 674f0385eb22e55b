package dev.lapwing.measure;

import dev.lapwing.plan.PlannedCondition;
import dev.lapwing.signal.Edges;
import dev.lapwing.uncertainty.Component;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * Whether a condition holds, followed as reports come in; what has been found never changes, so following a finished
 * recording to its end gives the same. A pressure is held against its level by a mean over {@value Watched#WIDTH_US} µs
 * (see {@link dev.lapwing.signal.MovingMean}), a wire by its edges.
 */
public final class ConditionWatch {
    private final Watched root;
    private final long fromUs;
    private Optional<Edges> truth = Optional.empty();
    private long lookedUntilUs = Long.MIN_VALUE;

    private ConditionWatch(Watched root, long fromUs) {
        this.root = root;
        this.fromUs = fromUs;
    }

    /** From that bench time on. */
    public static ConditionWatch of(PlannedCondition condition, long fromUs, Recording recording) {
        return of(condition, fromUs, recording, Ease.NONE);
    }

    /** With every level made easier to reach. */
    static ConditionWatch of(PlannedCondition condition, long fromUs, Recording recording, Ease ease) {
        return new ConditionWatch(Watched.of(condition, fromUs, recording, ease), fromUs);
    }

    /** Takes in what has been reported since. */
    public void advance() {
        root.advance();
        long until = root.knownUntilUs();
        if (until < fromUs) {
            return;
        }
        if (truth.isEmpty()) {
            truth = Optional.of(new Edges(root.at(fromUs), fromUs));
            lookedUntilUs = fromUs;
        }
        long change = root.nextChangeUs(lookedUntilUs);
        while (change <= until) {
            truth.get().append(change, root.at(change));
            lookedUntilUs = change;
            change = root.nextChangeUs(change);
        }
        lookedUntilUs = Math.max(lookedUntilUs, until);
    }

    /** True if it held at the newest instant that is known of all its signals. */
    public boolean holds() {
        return truth.isPresent() && truth.get().last();
    }

    /** First bench time in µs, from the start on, at which it held; empty if it has not yet. */
    public OptionalLong firstHeldUs() {
        if (truth.isEmpty()) {
            return OptionalLong.empty();
        }
        Edges edges = truth.get();
        if (edges.at(fromUs)) {
            return OptionalLong.of(fromUs);
        }
        return edges.size() == 0 ? OptionalLong.empty() : OptionalLong.of(edges.timeUs(0));
    }

    /** First bench time in µs after the start at which it began to hold, not having held; empty if it has not yet. */
    OptionalLong firstBeganUs() {
        if (truth.isEmpty() || truth.get().size() == 0) {
            return OptionalLong.empty();
        }
        Edges edges = truth.get();
        if (edges.level(0)) {
            return OptionalLong.of(edges.timeUs(0));
        }
        return edges.size() > 1 ? OptionalLong.of(edges.timeUs(1)) : OptionalLong.empty();
    }

    /**
     * What is doubtful of a change of its truth at that instant, in s, {@code seconds} after the instant timed from.
     */
    List<Component> doubts(long atUs, double seconds) {
        return root.doubts(atUs, seconds);
    }

    /** Its truth from the start on; empty while not all its signals have been reported from there. */
    Optional<Edges> truth() {
        return truth;
    }

    /** Bench time in µs up to which its truth is known. */
    long knownUntilUs() {
        return lookedUntilUs;
    }
}
