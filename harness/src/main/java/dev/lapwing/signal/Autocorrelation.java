package dev.lapwing.signal;

/** How much one sample says of the next, and so how many samples are worth as much as independent ones. */
final class Autocorrelation {
    /** Longer series are averaged in blocks first; the mean of the blocks is the mean of the samples. */
    private static final int SERIES_MAX = 2048;

    private Autocorrelation() {}

    /**
     * Lag-{@code lag} autocorrelation of deviations from a mean, as NIST StRD defines it for its univariate sets; 0 if
     * they do not deviate.
     */
    static double lag(double[] deviations, int lag) {
        double square = 0;
        for (double deviation : deviations) {
            square += deviation * deviation;
        }
        double product = 0;
        for (int i = lag; i < deviations.length; i++) {
            product += deviations[i] * deviations[i - lag];
        }
        return square == 0 ? 0 : product / square;
    }

    /**
     * Variance of the mean of the series whose deviations from its mean are given. With the autocorrelations r it is
     * s²/n · (1 + 2·Σ(1 − k/n)·r(k)), summed up to the first r that is not positive (Zięba and Ramza, Metrology and
     * Measurement Systems 18 (2011) 529–542, method of the first transit through zero; cited from memory), and never
     * less than the s²/n of independent samples.
     */
    static double varianceOfMean(double[] deviations) {
        double[] series = inBlocks(deviations);
        int n = series.length;
        double square = 0;
        for (double deviation : series) {
            square += deviation * deviation;
        }
        if (n < 2 || square == 0) {
            return 0;
        }
        double sum = 0;
        for (int k = 1; k < n; k++) {
            double r = lagOver(series, k, square);
            if (r <= 0) {
                break;
            }
            sum += (1 - (double) k / n) * r;
        }
        return square / (n - 1) / n * (1 + 2 * sum);
    }

    private static double lagOver(double[] series, int k, double square) {
        double product = 0;
        for (int i = k; i < series.length; i++) {
            product += series[i] * series[i - k];
        }
        return product / square;
    }

    private static double[] inBlocks(double[] deviations) {
        int block = (deviations.length + SERIES_MAX - 1) / SERIES_MAX;
        if (block <= 1) {
            return deviations;
        }
        double[] means = new double[deviations.length / block];
        for (int b = 0; b < means.length; b++) {
            double sum = 0;
            for (int i = 0; i < block; i++) {
                sum += deviations[b * block + i];
            }
            means[b] = sum / block;
        }
        return means;
    }
}
