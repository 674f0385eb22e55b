package dev.lapwing.plant;

import java.util.function.BooleanSupplier;

/** Runs a train for a time, or until something has happened. */
final class Steps {
    static final double SECONDS = 0.001;

    private Steps() {}

    static void run(Train train, double seconds) {
        run(train, seconds, SECONDS);
    }

    static void run(Train train, double seconds, double stepSeconds) {
        long steps = Math.round(seconds / stepSeconds);
        for (long i = 0; i < steps; i++) {
            train.step(stepSeconds);
        }
    }

    /** Seconds until the condition holds at the end of a step; NaN where it does not within the limit. */
    static double until(Train train, double limitSeconds, BooleanSupplier condition) {
        return until(train, limitSeconds, SECONDS, condition);
    }

    static double until(Train train, double limitSeconds, double stepSeconds, BooleanSupplier condition) {
        long steps = Math.round(limitSeconds / stepSeconds);
        for (long i = 1; i <= steps; i++) {
            train.step(stepSeconds);
            if (condition.getAsBoolean()) {
                return i * stepSeconds;
            }
        }
        return Double.NaN;
    }
}
