package dev.lapwing.signal;

import java.util.List;

/**
 * An operator with bounds. One part: always or eventually. Two: the first until the second, which comes within the
 * bounds while the first holds before them as well.
 */
final class BoundedNode extends FormulaNode {
    private final SampleTimes times;
    private final long fromUs;
    private final long toUs;
    private final List<FormulaNode> parts;
    private final boolean always;
    private final boolean until;
    /** Between the bounds. */
    private final SlidingUntil inside = new SlidingUntil();
    /** From the sample looked from to the bounds; only of until. */
    private final SlidingUntil before = new SlidingUntil();
    /** Numbers of the sample looked from, of the first inside, and of the next to take in. */
    private long from;

    private long first;
    private long next;

    BoundedNode(SampleTimes times, long fromUs, long toUs, List<FormulaNode> parts, boolean always) {
        this.times = times;
        this.fromUs = fromUs;
        this.toUs = toUs;
        this.parts = parts;
        this.always = always;
        this.until = parts.size() > 1;
    }

    @Override
    void sample(long sinceFirstUs, double[] values) {
        for (FormulaNode part : parts) {
            part.sample(sinceFirstUs, values);
        }
    }

    @Override
    void pump() {
        for (FormulaNode part : parts) {
            part.pump();
        }
        while (from < times.count() && given()) {
            from++;
        }
    }

    /** Gives the value at the sample looked from, if it is known. */
    private boolean given() {
        long nowUs = times.timeUs(from);
        while (times.cameBy(next, nowUs + toUs) && ready()) {
            take();
        }
        while (first + 1 < next && times.cameBy(first + 1, nowUs + fromUs)) {
            leave();
        }
        // What holds at the bounds' beginning must be known, and all up to their end, unless no more can change it.
        boolean begun = next > first && (times.lastUs() >= nowUs + fromUs) && !times.cameBy(first + 1, nowUs + fromUs);
        if (!begun || !(whole(nowUs) || settled())) {
            return false;
        }
        give();
        if (until && before.size() > 0) {
            before.drop();
        }
        return true;
    }

    private boolean whole(long nowUs) {
        return times.lastUs() >= nowUs + toUs && !times.cameBy(next, nowUs + toUs);
    }

    /** Nothing later can change it. */
    private boolean settled() {
        if (always) {
            return inside.holds() == Double.NEGATIVE_INFINITY;
        }
        double best = inside.then();
        return best >= inside.holds() || until && before.holds() <= best || best == Double.POSITIVE_INFINITY;
    }

    private boolean ready() {
        for (FormulaNode part : parts) {
            if (part.out().size() == 0) {
                return false;
            }
        }
        return true;
    }

    private void take() {
        Witnessed one = parts.get(0).out();
        if (until) {
            Witnessed other = parts.get(1).out();
            inside.add(one.value(), one.witness(), other.value(), other.witness());
            other.drop();
        } else if (always) {
            inside.add(one.value(), one.witness(), Double.NEGATIVE_INFINITY, 0);
        } else {
            inside.add(Double.POSITIVE_INFINITY, 0, one.value(), one.witness());
        }
        one.drop();
        next++;
    }

    private void leave() {
        if (until && first >= from) {
            before.add(inside.oldestHolds(), inside.oldestHoldsBy(), Double.NEGATIVE_INFINITY, 0);
        }
        inside.drop();
        first++;
    }

    private void give() {
        if (always) {
            out().add(inside.holds(), inside.holdsBy());
        } else if (until && before.holds() < inside.then()) {
            out().add(before.holds(), before.holdsBy());
        } else {
            out().add(inside.then(), inside.thenBy());
        }
    }
}
