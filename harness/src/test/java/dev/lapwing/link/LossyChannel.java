package dev.lapwing.link;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.PriorityQueue;
import java.util.SplittableRandom;

/** Carries whole messages, as a broker does: loses, delays, doubles and reorders them. */
final class LossyChannel<M> implements Carrier<M> {
    private final SplittableRandom random;
    private final PriorityQueue<Parcel<M>> flying = new PriorityQueue<>(
            Comparator.comparingLong((Parcel<M> one) -> one.dueNanos).thenComparingLong(one -> one.order));
    private Weather weather = Weather.FAIR;
    private long sent;
    private long lastDueNanos;

    private record Parcel<M>(M message, long dueNanos, long order) {}

    LossyChannel(SplittableRandom random) {
        this.random = random;
    }

    @Override
    public void weather(Weather changed) {
        weather = changed;
    }

    @Override
    public boolean free(long nowNanos) {
        return true;
    }

    @Override
    public void send(M message, long nowNanos) {
        if (weather.down() || random.nextDouble() < weather.loss()) {
            return;
        }
        add(message, nowNanos);
        if (random.nextDouble() < weather.doubling()) {
            add(message, nowNanos);
        }
    }

    @Override
    public List<M> arrived(long nowNanos) {
        List<M> arrived = new ArrayList<>();
        while (!flying.isEmpty() && flying.element().dueNanos <= nowNanos) {
            arrived.add(flying.remove().message);
        }
        return arrived;
    }

    private void add(M message, long nowNanos) {
        long due = nowNanos + weather.delayMs() * 1_000_000L + random.nextLong(weather.jitterMs() * 1_000_000L + 1);
        if (weather.inOrder()) {
            due = Math.max(due, lastDueNanos);
        }
        lastDueNanos = Math.max(due, lastDueNanos);
        flying.add(new Parcel<>(message, due, sent++));
    }
}
