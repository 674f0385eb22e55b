package dev.lapwing;

import dev.lapwing.time.MonotonicClock;

/**
 * The machine's clock as long as the test's own thread reads it; where that thread is kept waiting by a busy machine,
 * this clock waits for it. So nothing takes a test that did not get the processor for one that stands still.
 */
public final class WaitingClock implements MonotonicClock {
    private static final long GOES_ON_NANOS = 500_000_000L;

    private final MonotonicClock machine = MonotonicClock.system();
    private final Thread reader = Thread.currentThread();
    private boolean waits = true;
    private long readNanos = machine.nanos();
    private long behindNanos;

    @Override
    public synchronized long nanos() {
        long now = machine.nanos() - behindNanos;
        if (waits && now - readNanos > GOES_ON_NANOS) {
            behindNanos += now - readNanos - GOES_ON_NANOS;
            now = readNanos + GOES_ON_NANOS;
        }
        if (Thread.currentThread() == reader) {
            readNanos = now;
        }
        return now;
    }

    /** From now on the thread that made it may stand still, and that is seen. */
    public synchronized void waitsNoMore() {
        nanos();
        waits = false;
    }
}
