package dev.lapwing.link;

import java.util.List;
import java.util.SplittableRandom;

/** One direction of a link in fake time, by seed as good or bad as its weather. */
interface Carrier<M> {
    void send(M message, long nowNanos);

    /** Whether it takes a message now, or would only let it wait. */
    boolean free(long nowNanos);

    /** What has come by now, and not been asked for before. */
    List<M> arrived(long nowNanos);

    void weather(Weather changed);

    /**
     * How bad it is.
     *
     * @param loss     share of messages, or of bytes by a hundredth of it, that never come or come garbled
     * @param doubling share that come twice
     * @param delayMs  least delay, in ms
     * @param jitterMs what may come on top, in ms
     * @param inOrder  whether none overtakes another
     * @param down     whether nothing gets through
     */
    record Weather(double loss, double doubling, int delayMs, int jitterMs, boolean inOrder, boolean down) {
        static final Weather FAIR = new Weather(0, 0, 1, 1, true, false);

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
}
