package dev.lapwing.signal;

import java.util.Optional;

/**
 * Mean of the samples in a window and their scatter, in the trace's unit.
 *
 * @param samples       how many
 * @param mean          their mean
 * @param deviation     standard deviation of one sample (n − 1); 0 for a single sample
 * @param standardError standard uncertainty of the mean from the scatter alone (GUM 4.2.3), with regard to
 *                      neighbouring samples being alike
 * @param least         least sample
 * @param greatest      greatest sample
 */
public record Average(int samples, double mean, double deviation, double standardError, double least, double greatest) {

    /** Of the samples in that window; empty if there are none. */
    public static Optional<Average> of(Trace trace, Window window) {
        int from = trace.firstAtOrAfter(window.fromUs());
        int to = trace.firstAtOrAfter(window.toUs() + 1);
        if (to <= from) {
            return Optional.empty();
        }
        double[] values = new double[to - from];
        for (int i = from; i < to; i++) {
            values[i - from] = trace.value(i);
        }
        return Optional.of(of(values));
    }

    static Average of(double[] values) {
        int n = values.length;
        double first = values[0];
        double sum = 0;
        double least = first;
        double greatest = first;
        for (double value : values) {
            sum += value - first;
            least = Math.min(least, value);
            greatest = Math.max(greatest, value);
        }
        double mean = first + sum / n;
        double[] deviations = new double[n];
        double square = 0;
        double rest = 0;
        for (int i = 0; i < n; i++) {
            deviations[i] = values[i] - mean;
            square += deviations[i] * deviations[i];
            rest += deviations[i];
        }
        // What rounding left in the mean is taken out of the squares again (Chan, Golub and LeVeque 1983, two-pass).
        double variance = n < 2 ? 0 : Math.max(0, (square - rest * rest / n) / (n - 1));
        double standardError = Math.sqrt(Math.max(Autocorrelation.varianceOfMean(deviations), variance / n));
        return new Average(n, mean, Math.sqrt(variance), standardError, least, greatest);
    }

    /** Number of independent samples that would know the mean as well; at most {@link #samples()}. */
    public double effectiveSamples() {
        if (standardError == 0) {
            return samples;
        }
        double ratio = deviation / standardError;
        return Math.min(samples, Math.max(1, ratio * ratio));
    }

    /** Degrees of freedom of {@link #standardError()}: one less than there are independent samples; at least 0. */
    public double degreesOfFreedom() {
        return effectiveSamples() - 1;
    }
}
