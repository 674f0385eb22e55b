package dev.lapwing.link;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.PriorityQueue;
import java.util.SplittableRandom;

/** One direction of a link that loses, delays, doubles and reorders what it carries, by seed. */
final class LossyChannel<M> {
    private final SplittableRandom random;
    private final PriorityQueue<Parcel<M>> flying = new PriorityQueue<>(
            Comparator.comparingLong((Parcel<M> one) -> one.dueNanos).thenComparingLong(one -> one.order));
    private Weather weather;
    private long sent;
    private long lastDueNanos;

    private record Parcel<M>(M message, long dueNanos, long order) {}

    /**
     * How bad it is.
     *
     * @param loss     share of messages that never come
     * @param doubling share that come twice
     * @param delayMs  least delay, in ms
     * @param jitterMs what may come on top, in ms
     * @param inOrder  whether none overtakes another
     * @param down     whether nothing gets through
     */
    record Weather(double loss, double doubling, int delayMs, int jitterMs, boolean inOrder, boolean down) {
        static final Weather FAIR = new Weather(0, 0, 1, 1, true, false);
        static final Weather DOWN = new Weather(0, 0, 1, 1, true, true);

        static Weather drawn(SplittableRandom random) {
            return new Weather(
                    random.nextInt(3) == 0 ? 0 : random.nextDouble() * 0.4,
                    random.nextInt(3) == 0 ? 0 : random.nextDouble() * 0.3,
                    random.nextInt(10),
                    random.nextInt(3) == 0 ? random.nextInt(2000) : random.nextInt(20),
                    random.nextBoolean(),
                    random.nextInt(12) == 0);
        }
    }

    LossyChannel(SplittableRandom random) {
        this.random = random;
        this.weather = Weather.FAIR;
    }

    void weather(Weather changed) {
        weather = changed;
    }

    void send(M message, long nowNanos) {
        if (weather.down || random.nextDouble() < weather.loss) {
            return;
        }
        add(message, nowNanos);
        if (random.nextDouble() < weather.doubling) {
            add(message, nowNanos);
        }
    }

    List<M> arrived(long nowNanos) {
        List<M> arrived = new ArrayList<>();
        while (!flying.isEmpty() && flying.element().dueNanos <= nowNanos) {
            arrived.add(flying.remove().message);
        }
        return arrived;
    }

    private void add(M message, long nowNanos) {
        long due = nowNanos + weather.delayMs * 1_000_000L + random.nextLong(weather.jitterMs * 1_000_000L + 1);
        if (weather.inOrder) {
            due = Math.max(due, lastDueNanos);
        }
        lastDueNanos = Math.max(due, lastDueNanos);
        flying.add(new Parcel<>(message, due, sent++));
    }
}
