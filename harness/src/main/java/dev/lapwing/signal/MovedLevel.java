package dev.lapwing.signal;

/**
 * The time at which a signal crosses a level as a function of that level: what a reading or a level that is too high or
 * too low makes of it, whatever the shape of the signal.
 *
 * @param level   the level itself, in the trace's unit
 * @param rising  true for from below, false for from above
 * @param window  in which the crossing must lie; times count from its start
 * @param noise   standard deviation of one sample, the trace's unit
 * @param everyUs sample interval in µs
 * @param untilUs samples after that bench time are not looked at; where the window goes on after it, watching ended
 *                because the crossing had come, and the signal is taken to go on as it crossed
 * @param found   the crossing of the level itself
 */
public record MovedLevel(
        Trace trace,
        double level,
        boolean rising,
        Window window,
        double noise,
        long everyUs,
        long untilUs,
        LevelCrossing found) {

    /**
     * Where the signal crosses the level moved by {@code shift}.
     *
     * @param seconds   when; positive infinity where it never gets there, or at a later time that cannot be told;
     *                  negative infinity where it was there beforehand, or came at an earlier time that cannot be told
     * @param fromNoise standard uncertainty from the scatter of the samples, in s; 0 without a time
     * @param curvature bound of what the line through the samples may have wrong, in s; 0 without a time
     */
    public record Point(double shift, double seconds, double fromNoise, double curvature) {
        static Point without(double shift, double seconds) {
            return new Point(shift, seconds, 0, 0);
        }

        boolean told() {
            return Double.isFinite(seconds);
        }
    }

    public Point at(double shift) {
        CrossingSearch search = new CrossingSearch(trace, level + shift, rising, window, noise, everyUs);
        boolean easier = rising == shift < 0;
        return switch (search.advance(untilUs, untilUs >= window.toUs())) {
            case FOUND -> at(shift, search.found().orElseThrow(), 0);
            case BEYOND_BEFORE -> Point.without(shift, Double.NEGATIVE_INFINITY);
            case HOVERED -> Point.without(shift, easier ? Double.NEGATIVE_INFINITY : Double.POSITIVE_INFINITY);
            case NEVER -> Point.without(shift, Double.POSITIVE_INFINITY);
            case LOOKING -> at(shift, found, shift / found.slope());
        };
    }

    private static Point at(double shift, LevelCrossing crossing, double later) {
        return new Point(shift, crossing.seconds() + later, crossing.fromNoise(), crossing.curvature());
    }
}
