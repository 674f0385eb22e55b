package dev.lapwing.e2e;

import java.util.concurrent.atomic.AtomicLong;
import java.util.concurrent.locks.LockSupport;

/**
 * How long this machine stood still, seen from beside a process that speaks over a link in real time: a link that is
 * lost for that has no fault, one that is lost without it has. Looks every few milliseconds until it is closed.
 */
final class Stalls implements AutoCloseable {
    private static final long EVERY_NANOS = 5_000_000L;
    /** What stands still for so long may lose a heartbeat, of which there are three in a limit of 300 ms. */
    private static final long LONG_NANOS = 60_000_000L;

    private final AtomicLong longestNanos = new AtomicLong();
    private final Thread thread = new Thread(this::look, "stalls");
    private volatile boolean closed;

    Stalls() {
        thread.setDaemon(true);
        thread.start();
    }

    private void look() {
        long before = System.nanoTime();
        while (!closed) {
            LockSupport.parkNanos(EVERY_NANOS);
            long now = System.nanoTime();
            longestNanos.accumulateAndGet(now - before - EVERY_NANOS, Math::max);
            before = now;
        }
    }

    /** Whether it did so for long enough to lose a link. */
    boolean seen() {
        return longestNanos.get() >= LONG_NANOS;
    }

    @Override
    public void close() {
        closed = true;
    }
}
