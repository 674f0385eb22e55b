package dev.lapwing.signal;

import java.util.Arrays;
import java.util.function.DoubleSupplier;
import java.util.function.Supplier;
import java.util.stream.IntStream;

/**
 * What noise adds to the greatest value of a curve, found by adding more of it: simulation and extrapolation (J. R.
 * Cook and L. A. Stefanski, Simulation-Extrapolation Estimation in Parametric Measurement Error Models, JASA 89,
 * 1994; from memory). The curve has the variance of its noise once, draws give it twice. Noise raises the greatest by
 * its standard deviation to a power between 1, where many places are alike, and 2, where there is one round top; what
 * twice the variance adds, a, then says that the noise which is there has added between a and a/(√2 − 1): the middle
 * of these, give or take half of what lies between.
 *
 * @param excess how much greater the greatest is than without noise, on average; the curve's unit
 * @param bound  what that may be wrong by
 */
public record Luck(double excess, double bound) {
    private static final int DRAWS = 100;
    /** A place that lies lower than the greatest by so many standard deviations is not lifted above it. */
    private static final int REACH = 8;

    /**
     * Of the greatest or least of moving means of neighbouring samples.
     *
     * @param near     stretch in which it may lie
     * @param greatest true for the greatest, false for the least
     * @param averaged samples in a mean
     * @param standard standard deviation of a mean
     * @param normal   draws of a standard normal deviate
     */
    public static Luck ofExtreme(
            Trace trace, Window near, boolean greatest, int averaged, double standard, DoubleSupplier normal) {
        int from = trace.firstAtOrAfter(near.fromUs());
        int samples = trace.firstAtOrAfter(near.toUs() + 1) - from;
        double[] values = new double[Math.max(samples, averaged)];
        Arrays.setAll(values, i -> (greatest ? 1 : -1) * trace.value(Math.min(from + i, trace.size() - 1)));
        double[] drawn = new double[values.length];
        return of(means(values, averaged, averaged), standard, () -> {
            Arrays.setAll(drawn, i -> normal.getAsDouble());
            return means(drawn, averaged, Math.sqrt(averaged));
        });
    }

    private static double[] means(double[] values, int averaged, double divisor) {
        double[] means = new double[values.length - averaged + 1];
        double sum = 0;
        for (int i = 0; i < values.length; i++) {
            sum += values[i] - (i >= averaged ? values[i - averaged] : 0);
            if (i >= averaged - 1) {
                means[i - averaged + 1] = sum / divisor;
            }
        }
        return means;
    }

    /**
     * @param standard standard deviation of the curve's noise
     * @param noise    draws of noise with a standard deviation of 1, as long as the curve
     */
    static Luck of(double[] curve, double standard, Supplier<double[]> noise) {
        double greatest = IntStream.range(0, curve.length)
                .mapToDouble(i -> curve[i])
                .max()
                .orElseThrow();
        int[] near = IntStream.range(0, curve.length)
                .filter(i -> curve[i] >= greatest - REACH * standard)
                .toArray();
        double added = 0;
        for (int k = 0; k < DRAWS; k++) {
            double[] drawn = noise.get();
            // Each draw with its opposite: they do not move the mean of any one place.
            for (int sign = -1; sign <= 1; sign += 2) {
                double lucky = Double.NEGATIVE_INFINITY;
                for (int i : near) {
                    lucky = Math.max(lucky, curve[i] + sign * standard * drawn[i]);
                }
                added += (lucky - greatest) / (2 * DRAWS);
            }
        }
        // Of opposites the mean is never lower, but for rounding.
        double least = Math.max(0, added);
        double most = least * (1 + Math.sqrt(2));
        return new Luck((least + most) / 2, (most - least) / 2);
    }
}
