package dev.lapwing.transport.linked;

import dev.lapwing.transport.linked.BenchFault.Delayed;
import dev.lapwing.transport.linked.BenchFault.Stalled;
import java.util.SplittableRandom;

/**
 * A fault and its moment.
 *
 * @param atNanos when it strikes, in ns of bench time after the bench was switched on, not negative
 */
public record TimedFault(BenchFault fault, long atNanos) {
    public TimedFault {
        if (atNanos < 0) {
            throw new IllegalArgumentException("a fault strikes after the bench was switched on, not " + atNanos);
        }
    }

    /** Whether it has struck. */
    public boolean struck(long nowNanos) {
        return nowNanos >= atNanos;
    }

    /** When what is sent now comes, all in ns of bench time; without a delay it comes at once. */
    public long dueNanos(long nowNanos, SplittableRandom random) {
        if (struck(nowNanos) && fault instanceof Delayed delayed) {
            return nowNanos + delayed.nanos() + random.nextLong(delayed.jitterNanos() + 1);
        }
        boolean stands = struck(nowNanos) && fault instanceof Stalled stalled && nowNanos < atNanos + stalled.nanos();
        return stands ? atNanos + ((Stalled) fault).nanos() : nowNanos;
    }
}
