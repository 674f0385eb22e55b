package dev.lapwing.transport.linked;

import dev.lapwing.time.MonotonicClock;

/**
 * A clock that goes faster than the machine's by a factor, for a bench that is served faster than real time. Every
 * patience of such a link is then shorter by the same factor, as the bench's own is.
 */
public final class PacedClock implements MonotonicClock {
    private final MonotonicClock machine;
    private final double speed;
    private final long originNanos;

    /** @param speed 1 for every real bench; greater where a simulated one is served faster than real time */
    public PacedClock(MonotonicClock machine, double speed) {
        this.machine = machine;
        this.speed = speed;
        this.originNanos = machine.nanos();
    }

    @Override
    public long nanos() {
        return Math.round((machine.nanos() - originNanos) * speed);
    }

    /** How long the machine takes for so long of this clock, in ns, up to an hour. */
    long onTheMachine(long nanos) {
        return (long) Math.min(3.6e12, nanos / speed);
    }

    /** This clock's reading when the machine's was that. */
    long at(long machineNanos) {
        return Math.round((machineNanos - originNanos) * speed);
    }

    MonotonicClock machine() {
        return machine;
    }
}
