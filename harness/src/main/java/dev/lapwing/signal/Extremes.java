package dev.lapwing.signal;

import java.util.Optional;

/**
 * Least and greatest of the moving mean over a window, in the trace's unit.
 *
 * @param least      least mean
 * @param leastUs    bench time it stands for, in µs
 * @param greatest   greatest mean
 * @param greatestUs bench time it stands for, in µs
 * @param averaged   number of samples in a mean, the fewest
 * @param means      number of means looked at
 */
public record Extremes(double least, long leastUs, double greatest, long greatestUs, int averaged, int means) {

    /**
     * Of the samples in that window, averaged over {@code widthUs} or over the whole window if that is shorter; empty
     * if there are no samples.
     */
    public static Optional<Extremes> of(Trace trace, Window window, long widthUs) {
        MovingMean mean = new MovingMean(trace, widthUs, window.fromUs());
        int full = fullMean(trace, window, widthUs);
        Optional<Extremes> found = Optional.empty();
        while (mean.advance(window.toUs())) {
            if (mean.samples() >= full || mean.newestUs() - window.fromUs() >= widthUs) {
                found = Optional.of(found.map(so -> so.and(mean)).orElseGet(() -> of(mean)));
            }
        }
        return found;
    }

    /** How many samples the first full width holds, so that the means of the first few samples do not count. */
    private static int fullMean(Trace trace, Window window, long widthUs) {
        long endUs = Math.min(window.toUs(), window.fromUs() + widthUs - 1);
        return trace.firstAtOrAfter(endUs + 1) - trace.firstAtOrAfter(window.fromUs());
    }

    private static Extremes of(MovingMean mean) {
        return new Extremes(mean.value(), mean.timeUs(), mean.value(), mean.timeUs(), mean.samples(), 1);
    }

    private Extremes and(MovingMean mean) {
        double value = mean.value();
        boolean less = value < least;
        boolean more = value > greatest;
        return new Extremes(
                less ? value : least,
                less ? mean.timeUs() : leastUs,
                more ? value : greatest,
                more ? mean.timeUs() : greatestUs,
                Math.min(averaged, mean.samples()),
                means + 1);
    }
}
