package dev.lapwing.link.host;

import dev.lapwing.link.BenchMessage.Answer;
import dev.lapwing.link.BenchMessage.Queued;
import dev.lapwing.link.HostMessage.Ordered;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.ToLongFunction;
import org.jspecify.annotations.Nullable;

/** Commands whose ids rise: one at a time until its first answer, then until its final one. */
final class Orders {
    private static final int WAITING_MAX = 1024;

    private final Deque<Order> waiting = new ArrayDeque<>();
    /** Answered {@code queued}, by id. */
    private final Map<Integer, Said> pending = new LinkedHashMap<>();

    private @Nullable Said head;

    private record Said(Ordered message, Repeats repeats) {}

    /** Makes the next order complete, or says that it must wait. */
    interface Gate {
        Optional<Ordered> open(Order order);
    }

    void add(Order order) {
        if (waiting.size() == WAITING_MAX) {
            throw new IllegalStateException(WAITING_MAX + " commands wait for the bench already");
        }
        waiting.add(order);
    }

    /** The order that would be sent next. */
    Optional<Order> first() {
        return head == null ? Optional.ofNullable(waiting.peek()) : Optional.empty();
    }

    /** Takes back the order that would be sent next; its id. */
    int dropFirst() {
        return waiting.remove().id();
    }

    Optional<Ordered> poll(long nowNanos, Gate gate) {
        Order next = waiting.peek();
        if (head == null && next != null) {
            gate.open(next).ifPresent(message -> {
                waiting.remove();
                head = new Said(message, Repeats.fromNow(nowNanos));
            });
        }
        if (head != null && head.repeats.due(nowNanos)) {
            return say(head, nowNanos);
        }
        for (Said said : pending.values()) {
            if (said.repeats.due(nowNanos)) {
                return say(said, nowNanos);
            }
        }
        return Optional.empty();
    }

    /**
     * Takes an answer.
     *
     * @param finallyNanos host time by which the final answer of a queued command is due
     * @return the command, if this answer is news
     */
    Optional<Ordered> answered(Answer answer, ToLongFunction<Ordered> finallyNanos) {
        Said said = head != null && head.message.id() == answer.id() ? head : null;
        if (said != null) {
            head = null;
            if (answer instanceof Queued) {
                Repeats overdue = Repeats.whenOverdue(finallyNanos.applyAsLong(said.message));
                pending.put(answer.id(), new Said(said.message, overdue));
            }
            return Optional.of(said.message);
        }
        if (answer instanceof Queued) {
            return Optional.empty();
        }
        return Optional.ofNullable(pending.remove(answer.id())).map(Said::message);
    }

    /** Timed sets that the bench holds. */
    long held() {
        return pending.values().stream()
                .filter(said -> new Order.Ready(said.message).timedSet())
                .count();
    }

    boolean idle() {
        return head == null && waiting.isEmpty() && pending.isEmpty();
    }

    boolean exhausted(long nowNanos) {
        return head != null && head.repeats.exhausted(nowNanos)
                || pending.values().stream().anyMatch(said -> said.repeats.exhausted(nowNanos));
    }

    /** Takes back what would arm or drive and has no answer yet, so that no repeat of it follows a safe; their ids. */
    List<Integer> withdrawDriving() {
        List<Integer> withdrawn = new ArrayList<>();
        if (head != null && new Order.Ready(head.message).drives()) {
            withdrawn.add(head.message.id());
            head = null;
        }
        for (Iterator<Order> each = waiting.iterator(); each.hasNext(); ) {
            Order order = each.next();
            if (order.drives()) {
                withdrawn.add(order.id());
                each.remove();
            }
        }
        return withdrawn;
    }

    /** Whatever the bench still held, it holds no more: its last answers are due at once. */
    void expectAll(long nowNanos) {
        pending.replaceAll((id, said) -> new Said(said.message, Repeats.whenOverdue(nowNanos)));
    }

    long dueNanos() {
        long due = head == null ? Long.MAX_VALUE : head.repeats.dueNanos();
        for (Said said : pending.values()) {
            due = Math.min(due, said.repeats.dueNanos());
        }
        return due;
    }

    private static Optional<Ordered> say(Said said, long nowNanos) {
        said.repeats.said(nowNanos);
        return Optional.of(said.message);
    }
}
