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
        Promising promising = Promising.of(trace, window.fromUs() + widthUs, window.toUs());
        Bounds reached = reached(trace, promising.least(), widthUs).and(reached(trace, promising.greatest(), widthUs));
        return of(trace, window, widthUs, fullMean(trace, window, widthUs), reached);
    }

    /**
     * @param full    a mean of so many samples counts, though its width begins before the window
     * @param reached means that are there for sure; blocks that lie between them are passed over
     */
    private static Optional<Extremes> of(Trace trace, Window window, long widthUs, int full, Bounds reached) {
        MovingMean mean = new MovingMean(trace, widthUs, window.fromUs());
        double least = Double.POSITIVE_INFINITY;
        double greatest = Double.NEGATIVE_INFINITY;
        long leastUs = 0;
        long greatestUs = 0;
        int averaged = Integer.MAX_VALUE;
        int means = 0;
        for (int run = mean.advanceRun(window.toUs()); run > 0; run = mean.advanceRun(window.toUs())) {
            for (int ago = run - 1; ago >= 0; ago--) {
                if (mean.samples(ago) >= full || mean.newestUs(ago) - window.fromUs() >= widthUs) {
                    double value = mean.value(ago);
                    if (means == 0 || value < least) {
                        least = value;
                        leastUs = mean.timeUs(ago);
                    }
                    if (means == 0 || value > greatest) {
                        greatest = value;
                        greatestUs = mean.timeUs(ago);
                    }
                    averaged = Math.min(averaged, mean.samples(ago));
                    means++;
                }
            }
            if (means > 0) {
                means += mean.pass(
                        Math.min(least, reached.least()), Math.max(greatest, reached.greatest()), window.toUs());
            }
        }
        return means == 0
                ? Optional.empty()
                : Optional.of(new Extremes(least, leastUs, greatest, greatestUs, averaged, means));
    }

    /** Extremes of the means that end in that block, or a little less than those. */
    private static Bounds reached(Trace trace, Optional<Window> block, long widthUs) {
        return block.map(in -> new Window(in.fromUs() - widthUs, in.toUs()))
                .flatMap(window -> of(trace, window, widthUs, Integer.MAX_VALUE, Bounds.NONE))
                .map(found -> new Bounds(
                        found.least + Promising.ROUNDING * Math.abs(found.least),
                        found.greatest - Promising.ROUNDING * Math.abs(found.greatest)))
                .orElse(Bounds.NONE);
    }

    /** How many samples the first full width holds, so that the means of the first few samples do not count. */
    private static int fullMean(Trace trace, Window window, long widthUs) {
        long endUs = Math.min(window.toUs(), window.fromUs() + widthUs - 1);
        return trace.firstAtOrAfter(endUs + 1) - trace.firstAtOrAfter(window.fromUs());
    }
}
