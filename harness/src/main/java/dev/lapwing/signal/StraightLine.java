package dev.lapwing.signal;

import java.util.Optional;

/**
 * Straight line fitted to samples by least squares, y = middle + slope·(x − centre).
 *
 * @param samples   how many, at least 3
 * @param centre    mean of x
 * @param middle    value of the line there
 * @param slope     in units of y per unit of x
 * @param residual  standard deviation of the samples from the line (n − 2)
 * @param spread    sum of squares of x about its mean
 * @param inflation factor, at least 1, by which residuals that are alike among neighbours widen what the fit claims; 1
 *                  for independent ones
 */
public record StraightLine(
        int samples, double centre, double middle, double slope, double residual, double spread, double inflation) {

    /** Fit to the samples in the window, x in s from {@code zeroUs}; empty if there are fewer than 3. */
    public static Optional<StraightLine> of(Trace trace, Window window, long zeroUs) {
        int from = trace.firstAtOrAfter(window.fromUs());
        int to = trace.firstAtOrAfter(window.toUs() + 1);
        if (to - from < 3) {
            return Optional.empty();
        }
        double[] x = new double[to - from];
        double[] y = new double[to - from];
        for (int i = from; i < to; i++) {
            x[i - from] = (trace.timeUs(i) - zeroUs) * 1e-6;
            y[i - from] = trace.value(i);
        }
        return Optional.of(of(x, y));
    }

    static StraightLine of(double[] x, double[] y) {
        int n = x.length;
        double xMean = mean(x);
        double yMean = mean(y);
        double xx = 0;
        double xy = 0;
        for (int i = 0; i < n; i++) {
            xx += (x[i] - xMean) * (x[i] - xMean);
            xy += (x[i] - xMean) * (y[i] - yMean);
        }
        double slope = xy / xx;
        double[] rest = new double[n];
        double square = 0;
        for (int i = 0; i < n; i++) {
            rest[i] = y[i] - yMean - slope * (x[i] - xMean);
            square += rest[i] * rest[i];
        }
        double independent = square / (n - 1) / n;
        double alike = Autocorrelation.varianceOfMean(rest);
        double inflation = independent == 0 ? 1 : Math.max(1, Math.sqrt(alike / independent));
        return new StraightLine(n, xMean, yMean, slope, Math.sqrt(square / (n - 2)), xx, inflation);
    }

    private static double mean(double[] values) {
        double sum = 0;
        for (double value : values) {
            sum += value - values[0];
        }
        return values[0] + sum / values.length;
    }

    /** Value of the line at x. */
    public double at(double x) {
        return middle + slope * (x - centre);
    }

    /** Standard uncertainty of {@link #at}, were residuals independent (GUM H.3). */
    public double standardAt(double x) {
        return residual * Math.sqrt(1.0 / samples + (x - centre) * (x - centre) / spread);
    }

    /** Degrees of freedom of {@link #residual()}: as many as there are independent samples, less two; at least 1. */
    public double degreesOfFreedom() {
        return Math.max(1, samples / (inflation * inflation) - 2);
    }

    /** Standard uncertainty of the slope, were residuals independent (GUM H.3). */
    public double slopeStandard() {
        return residual / Math.sqrt(spread);
    }
}
