package dev.lapwing.signal;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * The greatest slope of a signal over a stated width. At each place the slope is that of the resistant line (J. W.
 * Tukey, Exploratory Data Analysis, 1977, chapter 5; from memory): the median of the last third of the samples minus
 * that of the first third, over the time between their middles. A spike of fewer samples than a sixth of the width does
 * not move it, where a difference of two samples would be nothing but spike.
 *
 * @param slope     greatest slope in the direction asked for, the trace's unit per s, positive in that direction
 * @param fromNoise standard uncertainty of one such slope from the scatter of the samples
 * @param places    how many independent slopes were about as great, so that noise could choose among them
 * @param first     median of the first third
 * @param last      median of the last third
 * @param region    where it was
 */
public record SteepestSlope(double slope, double fromNoise, double places, double first, double last, Window region) {
    private static final int STRIDES = 16;
    private static final int THIRD_LEAST = 5;
    /** Standard deviation of a median of many normal values, in those of their mean: √(π/2). */
    private static final double MEDIAN = 1.2533141373155003;

    /** Of the samples in a window; empty if a third of the width holds fewer than five of them. */
    public static Optional<SteepestSlope> of(Trace trace, boolean rising, Window window, long widthUs, double noise) {
        int sign = rising ? 1 : -1;
        long strideUs = Math.max(1, widthUs / STRIDES);
        Optional<SteepestSlope> steepest = Optional.empty();
        List<Double> slopes = new ArrayList<>();
        for (long fromUs = window.fromUs(); fromUs + widthUs <= window.toUs(); fromUs += strideUs) {
            Optional<SteepestSlope> here = at(trace, sign, new Window(fromUs, fromUs + widthUs), noise);
            if (here.isEmpty()) {
                return Optional.empty();
            }
            slopes.add(here.get().slope);
            if (steepest.isEmpty() || here.get().slope > steepest.get().slope) {
                steepest = here;
            }
        }
        double places = places(slopes, steepest.map(SteepestSlope::fromNoise).orElse(0.0));
        return steepest.map(s -> new SteepestSlope(s.slope, s.fromNoise, places, s.first, s.last, s.region));
    }

    /** Slopes within their noise of the greatest, noise averaged out first; a third of a width apart is independent. */
    private static double places(List<Double> slopes, double noise) {
        double[] smooth = new double[slopes.size()];
        double top = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < smooth.length; i++) {
            int from = Math.max(0, i - STRIDES / 2);
            int to = Math.min(smooth.length, i + STRIDES / 2 + 1);
            smooth[i] = slopes.subList(from, to).stream()
                            .mapToDouble(Double::doubleValue)
                            .sum()
                    / (to - from);
            top = Math.max(top, smooth[i]);
        }
        int alike = 0;
        for (double slope : smooth) {
            alike += slope >= top - noise ? 1 : 0;
        }
        return Math.max(1, 3.0 * alike / STRIDES);
    }

    private static Optional<SteepestSlope> at(Trace trace, int sign, Window region, double noise) {
        long thirdUs = (region.toUs() - region.fromUs()) / 3;
        int a = trace.firstAtOrAfter(region.fromUs());
        int b = trace.firstAtOrAfter(region.fromUs() + thirdUs);
        int c = trace.firstAtOrAfter(region.toUs() - thirdUs);
        int d = trace.firstAtOrAfter(region.toUs());
        int fewest = Math.min(b - a, d - c);
        if (fewest < THIRD_LEAST) {
            return Optional.empty();
        }
        double first = median(trace, a, b);
        double last = median(trace, c, d);
        double seconds = middle(trace, c, d) - middle(trace, a, b);
        double doubt = Math.sqrt(2) * MEDIAN * noise / Math.sqrt(fewest) / seconds;
        return Optional.of(new SteepestSlope(sign * (last - first) / seconds, doubt, 1, first, last, region));
    }

    private static double median(Trace trace, int from, int to) {
        double[] values = new double[to - from];
        for (int i = from; i < to; i++) {
            values[i - from] = trace.value(i);
        }
        Arrays.sort(values);
        int half = values.length / 2;
        return values.length % 2 == 1 ? values[half] : (values[half - 1] + values[half]) / 2;
    }

    private static double middle(Trace trace, int from, int to) {
        double sum = 0;
        for (int i = from; i < to; i++) {
            sum += trace.timeUs(i) - trace.timeUs(from);
        }
        return (trace.timeUs(from) + sum / (to - from)) * 1e-6;
    }
}
