package dev.lapwing.transport;

import dev.lapwing.link.bench.LivePoints;
import java.util.Map;

/** Terminals at which the first pressure goes up and down and the others creep. */
final class SquareWave implements LivePoints {
    static final int LOW = 1_000;
    static final int HIGH = 3_000;

    private final long halfUs;

    /** @param halfUs how long it is up, and how long down, in µs */
    SquareWave(long halfUs) {
        this.halfUs = halfUs;
    }

    @Override
    public long us(long nanos) {
        return nanos / 1_000;
    }

    @Override
    public long nanos(long us) {
        return us * 1_000;
    }

    @Override
    public void passUntil(long us, Edges edges) {
        // Nothing switches here.
    }

    @Override
    public int read(String point, long nowUs) {
        int channel = point.charAt(1) - '0';
        if (channel == 0) {
            return nowUs / halfUs % 2 == 0 ? LOW : HIGH;
        }
        return (int) ((nowUs / 1_000 * channel) % Pressures.COUNT_MAX);
    }

    @Override
    public long drive(Map<String, Integer> counts, long nowUs) {
        return nowUs;
    }
}
