package dev.lapwing.signal;

/**
 * A sharp bend between two samples. A curve whose slope only rises, or only falls, lies between the chord through the
 * samples and the straight lines that go on from either of them with the slopes of the neighbouring chords; so does the
 * time at which it crosses a level. Slopes are in that of the chord, times in the step between the samples.
 */
final class Knee {
    private Knee() {}

    /** True if the slope changes by more than itself from the one to the other, and is that of the chord between. */
    static boolean between(double before, double after) {
        return Math.abs(after - before) > 1 && Math.min(before, after) <= 1 && Math.max(before, after) >= 1;
    }

    /** How much later the lines are at a level than the chord, which is there at {@code share}; below 0 if earlier. */
    static double off(double share, double before, double after) {
        double fromFirst = before > 0 ? share / before : Double.POSITIVE_INFINITY;
        double toSecond = after > 0 ? 1 - (1 - share) / after : Double.NEGATIVE_INFINITY;
        return after > before ? Math.min(fromFirst, toSecond) - share : Math.max(fromFirst, toSecond) - share;
    }
}
