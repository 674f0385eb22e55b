package dev.lapwing.link.host;

/** When something said is said again, and when it has been said often enough. */
final class Repeats {
    static final long PATIENCE_NANOS = 200_000_000L;
    private static final int REPEATS_MAX = 5;
    /** So many hellos last 6 s: a board that starts anew when its port is opened must come to itself first. */
    private static final int HELLOS_AGAIN_MAX = 29;

    /** How much longer an answer may take once it was said for the last time, in ns. */
    private final long longerNanos;

    private int left;
    private boolean unsaid;
    private long nextNanos;

    private Repeats(int left, boolean unsaid, long nextNanos, long longerNanos) {
        this.longerNanos = longerNanos;
        this.left = left;
        this.unsaid = unsaid;
        this.nextNanos = nextNanos;
    }

    /** Said at once, and repeated from there. */
    static Repeats fromNow(long nowNanos) {
        return new Repeats(REPEATS_MAX + 1, true, nowNanos, 0);
    }

    /**
     * Said at once, and repeated for as long as a bench may take to start.
     *
     * @param greetingNanos how long its answer may be on its way
     */
    static Repeats ofHello(long nowNanos, long greetingNanos) {
        return new Repeats(HELLOS_AGAIN_MAX + 1, true, nowNanos, greetingNanos);
    }

    /** Already said; repeated only when its answer is overdue at that host time. */
    static Repeats whenOverdue(long answerNanos) {
        return new Repeats(REPEATS_MAX, false, answerNanos + PATIENCE_NANOS, 0);
    }

    boolean due(long nowNanos) {
        return left > 0 && nowNanos >= nextNanos;
    }

    boolean exhausted(long nowNanos) {
        return left == 0 && nowNanos >= nextNanos;
    }

    boolean unsaid() {
        return unsaid;
    }

    void said(long nowNanos) {
        left--;
        unsaid = false;
        nextNanos = nowNanos + PATIENCE_NANOS + (left == 0 ? longerNanos : 0);
    }

    long dueNanos() {
        return nextNanos;
    }
}
