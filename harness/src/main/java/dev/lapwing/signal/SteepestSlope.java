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
 * @param grid      bound of what it may be wrong by because it was only told where there are samples
 * @param first     median of the first third
 * @param last      median of the last third
 * @param region    where it was
 */
public record SteepestSlope(
        double slope, double fromNoise, double places, double grid, double first, double last, Window region) {
    /** Places a width at which the slope is told; fewer where samples are further apart. */
    private static final int STRIDES = 96;

    private static final int THIRD_LEAST = 5;
    /** Standard deviation of a median of many normal values, in those of their mean: √(π/2). */
    private static final double MEDIAN = 1.2533141373155003;

    /**
     * Of the samples in a window, whose noise and width of a count are given in the trace's unit; a median of counts is
     * itself a count, or half way between two, however many there are. Empty if a third of the width holds fewer than
     * five of them.
     */
    public static Optional<SteepestSlope> of(
            Trace trace, boolean rising, Window window, long widthUs, double noise, double count) {
        int sign = rising ? 1 : -1;
        long strideUs = Math.max(widthUs / STRIDES, everyUs(trace, window));
        Doubt doubt = new Doubt(noise, count / Math.sqrt(12));
        Optional<SteepestSlope> steepest = Optional.empty();
        List<Double> slopes = new ArrayList<>();
        for (long fromUs = window.fromUs(); fromUs + widthUs <= window.toUs(); fromUs += strideUs) {
            Optional<SteepestSlope> here = at(trace, sign, new Window(fromUs, fromUs + widthUs), doubt);
            if (here.isEmpty()) {
                return Optional.empty();
            }
            slopes.add(here.get().slope);
            if (steepest.isEmpty() || here.get().slope > steepest.get().slope) {
                steepest = here;
            }
        }
        double each = widthUs / (double) strideUs;
        double places =
                places(slopes, each, steepest.map(SteepestSlope::fromNoise).orElse(0.0));
        return steepest.map(s -> new SteepestSlope(
                s.slope, s.fromNoise, places, grid(s, trace, sign, strideUs, doubt), s.first, s.last, s.region));
    }

    /** Standard deviation of one sample, and of what rounding to counts does to a median. */
    private record Doubt(double noise, double rounding) {}

    private static long everyUs(Trace trace, Window window) {
        int from = trace.firstAtOrAfter(window.fromUs());
        int to = trace.firstAtOrAfter(window.toUs() + 1) - 1;
        return to <= from ? 1 : Math.max(1, (trace.timeUs(to) - trace.timeUs(from)) / (to - from));
    }

    /** What half a stride to either side, and a stride more or less of width, change. */
    private static double grid(SteepestSlope at, Trace trace, int sign, long strideUs, Doubt doubt) {
        Window here = at.region;
        double early = other(at, trace, sign, new Window(here.fromUs() - strideUs, here.toUs() - strideUs), doubt);
        double late = other(at, trace, sign, new Window(here.fromUs() + strideUs, here.toUs() + strideUs), doubt);
        double wide = other(at, trace, sign, new Window(here.fromUs() - strideUs, here.toUs() + strideUs), doubt);
        return Math.max(Math.abs(early - at.slope), Math.abs(late - at.slope)) / 2 + Math.abs(wide - at.slope);
    }

    private static double other(SteepestSlope at, Trace trace, int sign, Window region, Doubt doubt) {
        return at(trace, sign, region, doubt).map(SteepestSlope::slope).orElse(at.slope);
    }

    /** Slopes near the greatest, noise partly averaged out first; a third of a width apart is independent. */
    private static double places(List<Double> slopes, double each, double noise) {
        double[] smooth = new double[slopes.size()];
        double top = Double.NEGATIVE_INFINITY;
        for (int i = 0; i < smooth.length; i++) {
            int from = Math.max(0, i - (int) each / 4);
            int to = Math.min(smooth.length, i + (int) each / 4 + 1);
            smooth[i] = slopes.subList(from, to).stream()
                    .mapToDouble(d -> d)
                    .average()
                    .orElse(0);
            top = Math.max(top, smooth[i]);
        }
        int alike = 0;
        for (double slope : smooth) {
            alike += slope >= top - 2 * noise ? 1 : 0;
        }
        return Math.max(1, 3.0 * alike / each);
    }

    private static Optional<SteepestSlope> at(Trace trace, int sign, Window region, Doubt doubt) {
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
        double each = StrictMath.hypot(MEDIAN * doubt.noise / Math.sqrt(fewest), doubt.rounding);
        return Optional.of(new SteepestSlope(
                sign * (last - first) / seconds, Math.sqrt(2) * each / seconds, 1, 0, first, last, region));
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
