package dev.lapwing.link.host;

import dev.lapwing.link.BenchMessage;
import dev.lapwing.link.BenchMessage.Report;
import dev.lapwing.link.BenchMessage.State;

/** Whether the bench is armed, whether it is meant to be, and the heartbeat that keeps it so. */
final class Liveness {
    private static final long NEVER = Long.MAX_VALUE;

    private long everyNanos;
    private long beatNanos = NEVER;
    private long k;

    private boolean wanted;
    /** Reports from this number on were made after the arming that is wanted, or after the last safe. */
    private long armedFromN = NEVER;

    private long safeFromN;
    private long latestN = -1;
    private boolean armed;

    /** An arm goes out: the heart beats from now on. */
    void armSent(long limitNanos, long nowNanos) {
        if (!wanted) {
            wanted = true;
            armedFromN = NEVER;
            everyNanos = limitNanos / 3;
            beatNanos = nowNanos;
        }
    }

    void armDone(long next) {
        if (wanted) {
            armedFromN = next;
        }
    }

    /** The bench is not to be armed any more, or cannot be. */
    void unwanted() {
        wanted = false;
        beatNanos = NEVER;
    }

    void safeAsked() {
        safeFromN = NEVER;
    }

    void safeDone(long next) {
        safeFromN = next;
    }

    /** Takes a report; true if the bench is armed though nobody wants it. */
    boolean saw(Report report) {
        boolean tells = report instanceof State || report instanceof BenchMessage.Safe;
        if (!tells || report.n() < latestN) {
            return false;
        }
        latestN = report.n();
        armed = report instanceof State state && state.armed();
        if (!armed && wanted && report.n() >= armedFromN) {
            unwanted();
        }
        return armed && !wanted && report.n() >= safeFromN;
    }

    boolean armed() {
        return armed;
    }

    boolean beatDue(long nowNanos) {
        return nowNanos >= beatNanos;
    }

    /** The number of the beat that goes out now. */
    long beat(long nowNanos) {
        beatNanos = nowNanos + everyNanos;
        return ++k;
    }

    long dueNanos() {
        return beatNanos;
    }
}
