package dev.lapwing.unit;

/** A contact, relay or lamp: it follows its cause once that has lasted for a time, and overlooks a shorter one. */
final class Delayed {
    /** Sums of steps miss a round time by rounding; far less than a step. */
    private static final double ROUNDING_SECONDS = 1e-9;

    private static final double NEVER = Double.POSITIVE_INFINITY;

    private final double onSeconds;
    private final double offSeconds;
    private boolean state;
    private double since = NEVER;

    /** Off at first. */
    Delayed(double onSeconds, double offSeconds) {
        this.onSeconds = onSeconds;
        this.offSeconds = offSeconds;
    }

    Delayed(double seconds) {
        this(seconds, seconds);
    }

    boolean follow(double nowSeconds, boolean cause) {
        if (cause == state) {
            since = NEVER;
            return state;
        }
        since = Math.min(since, nowSeconds);
        if (nowSeconds - since >= (cause ? onSeconds : offSeconds) - ROUNDING_SECONDS) {
            state = cause;
            since = NEVER;
        }
        return state;
    }

    boolean isOn() {
        return state;
    }
}
