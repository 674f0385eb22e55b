package dev.lapwing.uncertainty;

import java.util.Arrays;
import org.hipparchus.distribution.continuous.ChiSquaredDistribution;

/**
 * What independent observations of one quantity say of its true mean and standard deviation: by Student's t and by
 * chi-squared (JCGM 100:2008, annex G.3 and E.4). A few that lie far out make the standard deviation doubtful: its
 * square scatters by σ²·√((κ − 1)/n) (Cramér, Mathematical Methods of Statistics, 27.4, from memory), as that of
 * 2n/(κ − 1) normal ones does.
 *
 * @param number   how many, 2 or more
 * @param mean     their mean
 * @param standard their standard deviation
 * @param kurtosis their fourth central moment over the square of the second, κ; {@link #NORMAL} for normal ones
 */
public record Observations(int number, double mean, double standard, double kurtosis) {
    /** Kurtosis of a normal quantity. */
    public static final double NORMAL = 3;

    public Observations {
        if (number < 2) {
            throw new IllegalArgumentException(number + " observations say nothing of their scatter");
        }
    }

    /** Of these; at least two. */
    public static Observations of(double... observed) {
        double mean = Arrays.stream(observed).sum() / Math.max(1, observed.length);
        double second = moment(observed, mean, 2);
        double kurtosis = second == 0 ? NORMAL : moment(observed, mean, 4) / (second * second);
        double standard = Math.sqrt(second * observed.length / Math.max(1, observed.length - 1));
        return new Observations(observed.length, mean, standard, kurtosis);
    }

    private static double moment(double[] observed, double mean, int order) {
        double sum = 0;
        for (double each : observed) {
            sum += StrictMath.pow(each - mean, order);
        }
        return sum / Math.max(1, observed.length);
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
        return standard * Math.sqrt(freedom() / squares(1 - beyond(deviate)));
    }

    /** The true standard deviation at most, with that certainty. */
    public double mostStandard(double deviate) {
        return standard * Math.sqrt(freedom() / squares(beyond(deviate)));
    }

    /** Degrees of freedom of the standard deviation; what is flatter than normal tells no more than that. */
    private double freedom() {
        return (number - 1) * 2 / (Math.max(NORMAL, kurtosis) - 1);
    }

    private double squares(double probability) {
        return new ChiSquaredDistribution(freedom()).inverseCumulativeProbability(probability);
    }

    private static double beyond(double deviate) {
        return Student.probability(-deviate, Double.POSITIVE_INFINITY);
    }
}
