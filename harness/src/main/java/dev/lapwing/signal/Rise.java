package dev.lapwing.signal;

import java.util.Optional;

/**
 * Greatest rise of the moving mean within a window: from any instant to any later one, in the trace's unit.
 *
 * @param value    the rise, 0 or more
 * @param from     the mean it rises from
 * @param fromUs   bench time of that, in µs
 * @param toUs     bench time of the other end, in µs
 * @param averaged number of samples in a mean, the fewest
 * @param means    number of means looked at
 */
public record Rise(double value, double from, long fromUs, long toUs, int averaged, int means) {

    /** Of means over {@code widthUs}; empty if the window holds fewer than two of them. */
    public static Optional<Rise> of(Trace trace, Window window, long widthUs) {
        MovingMean mean = new MovingMean(trace, widthUs, window.fromUs());
        double lowest = Double.POSITIVE_INFINITY;
        long lowestUs = window.fromUs();
        Rise greatest = new Rise(0, 0, window.fromUs(), window.fromUs(), Integer.MAX_VALUE, 0);
        while (mean.advance(window.toUs())) {
            // The first few means are of too few samples.
            if (mean.newestUs() - window.fromUs() < widthUs) {
                continue;
            }
            if (mean.value() < lowest) {
                lowest = mean.value();
                lowestUs = mean.timeUs();
            }
            greatest = greatest.and(lowest, lowestUs, mean);
        }
        return greatest.means < 2 ? Optional.empty() : Optional.of(greatest);
    }

    private Rise and(double lowest, long lowestUs, MovingMean mean) {
        double rise = mean.value() - lowest;
        int fewest = Math.min(averaged, mean.samples());
        return rise > value
                ? new Rise(rise, lowest, lowestUs, mean.timeUs(), fewest, means + 1)
                : new Rise(value, from, fromUs, toUs, fewest, means + 1);
    }
}
