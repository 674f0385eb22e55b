package dev.lapwing.link.host;

import java.util.Iterator;
import java.util.LinkedList;
import java.util.List;

/** Which numbered messages have come, which are awaited and which are lost. */
final class NumberTrack {
    /** How long a missing number is waited for. */
    static final long PATIENCE_NANOS = 1_000_000_000L;
    /** More holes at once than any line makes; the oldest is given up then. */
    private static final int GAPS_MAX = 1024;

    /** Numbers that are missing, and what bench time they were about. */
    record Gap(long fromN, long toN, long fromUs, long toUs, long openedNanos) {}

    private final List<Gap> gaps = new LinkedList<>();
    private final long start;
    private long next;

    /** @param start first number of the session */
    NumberTrack(long start) {
        this.start = start;
        this.next = start;
    }

    /** What is known of the bench's time when a gap is seen. */
    record Moment(long fromUs, long toUs, long nanos) {}

    /** Takes the number of a message that came; false if it is not awaited any more. */
    boolean accept(long n, Moment moment) {
        if (n < start) {
            return false;
        }
        if (n >= next) {
            reach(n, moment);
            next = n + 1;
            return true;
        }
        return fill(n);
    }

    /** The bench says that every number below was given. */
    void reach(long known, Moment moment) {
        if (known > next) {
            gaps.add(new Gap(next, known - 1, moment.fromUs, moment.toUs, moment.nanos));
            next = known;
        }
    }

    /** Gaps that have been open too long; they are given up. */
    List<Gap> lost(long nowNanos) {
        List<Gap> lost = new LinkedList<>();
        while (!gaps.isEmpty() && (nowNanos - gaps.get(0).openedNanos >= PATIENCE_NANOS || gaps.size() > GAPS_MAX)) {
            lost.add(gaps.remove(0));
        }
        return lost;
    }

    /** All gaps: nothing is waited for any more. */
    List<Gap> giveUp() {
        List<Gap> lost = List.copyOf(gaps);
        gaps.clear();
        return lost;
    }

    /** Whether a number is awaited whose message may be about that bench time, in µs, or an earlier one. */
    boolean awaits(long us) {
        return gaps.stream().anyMatch(gap -> gap.fromUs <= us);
    }

    /** Whether nothing is awaited. */
    boolean complete() {
        return gaps.isEmpty();
    }

    long dueNanos() {
        return gaps.isEmpty() ? Long.MAX_VALUE : gaps.get(0).openedNanos + PATIENCE_NANOS;
    }

    private boolean fill(long n) {
        int at = 0;
        for (Iterator<Gap> each = gaps.iterator(); each.hasNext(); at++) {
            Gap gap = each.next();
            if (n >= gap.fromN && n <= gap.toN) {
                each.remove();
                if (n < gap.toN) {
                    gaps.add(at, new Gap(n + 1, gap.toN, gap.fromUs, gap.toUs, gap.openedNanos));
                }
                if (n > gap.fromN) {
                    gaps.add(at, new Gap(gap.fromN, n - 1, gap.fromUs, gap.toUs, gap.openedNanos));
                }
                return true;
            }
        }
        return false;
    }
}
