package dev.lapwing.uncertainty;

import org.hipparchus.distribution.continuous.ChiSquaredDistribution;

/**
 * What independent observations of one normal quantity say of its true mean and standard deviation: by Student's t and
 * by chi-squared (JCGM 100:2008, annex G.3 and E.4).
 *
 * @param number   how many, 2 or more
 * @param mean     their mean
 * @param standard their standard deviation
 */
public record Observations(int number, double mean, double standard) {
    public Observations {
        if (number < 2) {
            throw new IllegalArgumentException(number + " observations say nothing of their scatter");
        }
    }

    /**
     * How far the true mean lies from theirs at most, but for as seldom as a normal deviate lies beyond {@code deviate}
     * to one side.
     */
    public double meanDoubt(double deviate) {
        double factor = -Student.quantile(beyond(deviate), number - 1);
        return factor * standard / Math.sqrt(number);
    }

    /** The true standard deviation at least, with that certainty. */
    public double leastStandard(double deviate) {
        return standard * Math.sqrt((number - 1) / squares(1 - beyond(deviate)));
    }

    /** The true standard deviation at most, with that certainty. */
    public double mostStandard(double deviate) {
        return standard * Math.sqrt((number - 1) / squares(beyond(deviate)));
    }

    private double squares(double probability) {
        return new ChiSquaredDistribution(number - 1).inverseCumulativeProbability(probability);
    }

    private static double beyond(double deviate) {
        return Student.probability(-deviate, Double.POSITIVE_INFINITY);
    }
}
