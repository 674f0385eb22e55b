package dev.lapwing.link.host;

/** When something said is said again, and when it has been said often enough. */
final class Repeats {
    static final long PATIENCE_NANOS = 200_000_000L;
    private static final int REPEATS_MAX = 5;

    private int left;
    private long nextNanos;

    private Repeats(int left, long nextNanos) {
        this.left = left;
        this.nextNanos = nextNanos;
    }

    /** Said at once, and repeated from there. */
    static Repeats fromNow(long nowNanos) {
        return new Repeats(REPEATS_MAX + 1, nowNanos);
    }

    /** Already said; repeated only when its answer is overdue at that host time. */
    static Repeats whenOverdue(long answerNanos) {
        return new Repeats(REPEATS_MAX, answerNanos + PATIENCE_NANOS);
    }

    boolean due(long nowNanos) {
        return left > 0 && nowNanos >= nextNanos;
    }

    boolean exhausted(long nowNanos) {
        return left == 0 && nowNanos >= nextNanos;
    }

    boolean unsaid() {
        return left > REPEATS_MAX;
    }

    void said(long nowNanos) {
        left--;
        nextNanos = nowNanos + PATIENCE_NANOS;
    }

    long dueNanos() {
        return nextNanos;
    }
}
