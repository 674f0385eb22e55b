package dev.lapwing.link.bench;

import dev.lapwing.link.HostMessage;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.PriorityQueue;

/** Timed sets that wait, in the order of their time, then of their id. */
final class SetQueue {
    private final int most;
    private final PriorityQueue<Waiting> waiting = new PriorityQueue<>(
            Comparator.comparingLong((Waiting one) -> one.set.atUs()).thenComparingInt(one -> one.set.id()));

    /** @param dueUs bench time at which it is driven, its delay included */
    private record Waiting(HostMessage.Set set, long dueUs) {}

    SetQueue(int most) {
        this.most = most;
    }

    boolean full() {
        return waiting.size() >= most;
    }

    void add(HostMessage.Set set, long delayUs) {
        waiting.add(new Waiting(set, set.atUs() + delayUs));
    }

    Optional<HostMessage.Set> pollDue(long nowUs) {
        return nowUs >= dueUs() ? Optional.of(waiting.remove().set) : Optional.empty();
    }

    /** Those that now will never be executed, by rising id. */
    List<HostMessage.Set> drop() {
        List<HostMessage.Set> dropped = waiting.stream()
                .map(Waiting::set)
                .sorted(Comparator.comparingInt(HostMessage.Set::id))
                .toList();
        waiting.clear();
        return dropped;
    }

    long dueUs() {
        return waiting.isEmpty() ? Long.MAX_VALUE : waiting.element().dueUs;
    }
}
