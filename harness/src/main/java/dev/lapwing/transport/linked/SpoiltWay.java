package dev.lapwing.transport.linked;

import dev.lapwing.transport.linked.BenchFault.Doubled;
import dev.lapwing.transport.linked.BenchFault.Dropped;
import dev.lapwing.transport.linked.BenchFault.Unplugged;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;

/**
 * One direction of what carries whole messages, with faults: each may be lost, come twice, or come later, in its order.
 * Times are ns since the bench was switched on, in bench time, and never fall. For any thread.
 *
 * @param <T> a message
 */
final class SpoiltWay<T> {
    private final List<TimedFault> faults;
    private final SplittableRandom random;
    private final Deque<Late<T>> waiting = new ArrayDeque<>();
    private long lastDueNanos;

    private record Late<T>(T message, long dueNanos) {}

    SpoiltWay(List<TimedFault> faults, SplittableRandom random) {
        this.faults = List.copyOf(faults);
        this.random = random;
    }

    synchronized void put(T message, long nowNanos) {
        int times = 1;
        for (TimedFault timed : faults) {
            lastDueNanos = Math.max(lastDueNanos, timed.dueNanos(nowNanos, random));
            times *= timed.struck(nowNanos) ? times(timed.fault(), nowNanos - timed.atNanos()) : 1;
        }
        for (int i = 0; i < times; i++) {
            waiting.add(new Late<>(message, lastDueNanos));
        }
    }

    private int times(BenchFault fault, long sinceNanos) {
        if (fault instanceof Dropped dropped) {
            return random.nextDouble() < dropped.rate() ? 0 : 1;
        } else if (fault instanceof Doubled doubled) {
            return random.nextDouble() < doubled.rate() ? 2 : 1;
        }
        return fault instanceof Unplugged unplugged && sinceNanos < unplugged.nanos() ? 0 : 1;
    }

    /** The next that comes out by now. */
    synchronized Optional<T> due(long nowNanos) {
        Late<T> first = waiting.peek();
        return first == null || first.dueNanos > nowNanos ? Optional.empty() : Optional.of(waiting.remove().message);
    }

    /** When the next comes out; far away if none is under way. */
    synchronized long nextNanos() {
        Late<T> first = waiting.peek();
        return first == null ? Long.MAX_VALUE : first.dueNanos;
    }
}
