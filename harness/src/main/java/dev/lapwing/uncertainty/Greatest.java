package dev.lapwing.uncertainty;

/**
 * What noise adds to the greatest of many readings that would all be alike without it: it is not the mean of one
 * reading that is found greatest, but that of the luckiest. In standard deviations of one reading.
 *
 * @param excess  by how much the greatest lies above the mean, on average; 0 for one reading
 * @param scatter standard deviation of the greatest; 1 for one reading
 */
public record Greatest(double excess, double scatter) {

    /**
     * Of so many independent readings, 1 or more: G. Blom, Statistical Estimates and Transformed Beta-Variables (1958),
     * expectation of a normal order statistic; from memory, within 0.03 of what is tabulated. The scatter is a fit to
     * tabulated ones, within 0.05.
     */
    public static Greatest of(double readings) {
        if (readings <= 1) {
            return new Greatest(0, 1);
        }
        double excess = Math.max(0, Student.quantile((readings - 0.375) / (readings + 0.25), Double.POSITIVE_INFINITY));
        return new Greatest(excess, 1 / (1 + 0.5 * excess));
    }

    /**
     * Of means over a stretch of so many samples that moves on sample by sample, over so many such stretches: means
     * that overlap are not alike, so there are more to choose from than stretches. The factor 1 + 2·ln(samples) is a
     * fit to draws for 1 to 100 samples, within 0.1 of the excess.
     */
    public static Greatest ofMovingMeans(double stretches, int samples) {
        return of(Math.max(1, stretches) * (1 + 2 * StrictMath.log(Math.max(1, samples))));
    }
}
