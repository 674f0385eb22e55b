package dev.lapwing.measure;

import dev.lapwing.plan.PlannedCondition;
import dev.lapwing.signal.Edges;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Component;

/**
 * The instant at which something waited for came to hold. Where times count from it, it is as doubtful as any other
 * instant that is told by a level.
 *
 * @param recording what was recorded
 */
public record WaitedFor(Recording recording) {
    /** So long before it the condition is followed, in µs: longer than the means that it is told by. */
    private static final long BEFORE_US = 1_000_000;

    /**
     * Bound, in µs, of a rectangular distribution as wide as what is doubtful of that instant; 0 if the condition did
     * not change then, as where it held when the waiting began. What was not seen then may have changed as early as
     * it was seen last, or as late as it was seen next.
     */
    public long boundUs(PlannedCondition condition, long atUs) {
        ConditionWatch watch = ConditionWatch.of(condition, atUs - BEFORE_US, recording);
        watch.advance();
        long changeUs = change(watch, atUs);
        double unseen = 1e-6 * unseenUs(condition, changeUs);
        double square = unseen * unseen / 3;
        for (Component component : watch.doubts(changeUs, 0)) {
            square += component.standard() * component.standard();
        }
        return Math.round(Math.sqrt(3 * square) * 1e6);
    }

    /** How far from that instant one of its signals was not seen, in µs; 0 if all of them were seen then. */
    private long unseenUs(PlannedCondition condition, long changeUs) {
        Window before = new Window(changeUs - Watched.WIDTH_US, changeUs);
        return Unseen.in(before, condition.signals(), recording).bySignal().values().stream()
                .mapToLong(s -> Math.max(changeUs - s.fromUs(0), s.toUs(s.size() - 1) - changeUs))
                .max()
                .orElse(0);
    }

    /** The same change may be put a little elsewhere where the condition is followed from another instant on. */
    private static long change(ConditionWatch watch, long atUs) {
        Window near = new Window(atUs - Watched.WIDTH_US, atUs + Watched.WIDTH_US);
        if (watch.truth().isPresent()) {
            Edges truth = watch.truth().get();
            for (int i = truth.firstAfter(near.fromUs()); i < truth.size() && truth.timeUs(i) <= near.toUs(); i++) {
                if (truth.level(i)) {
                    return truth.timeUs(i);
                }
            }
        }
        return atUs;
    }
}
