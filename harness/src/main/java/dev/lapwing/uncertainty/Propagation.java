package dev.lapwing.uncertainty;

import java.util.List;

/**
 * The distribution of a quantity as drawn by Monte Carlo (JCGM 101:2008), enough of it to hold it against any limit.
 *
 * @param seed      of its random numbers, 0 or more and below 2^53
 * @param trials    how many draws were made
 * @param mean      of the draws that have a value (JCGM 101, 7.6), base unit
 * @param standard  their standard deviation, base unit
 * @param tolerance numerical tolerance within which the value and both ends of the interval are settled, or, where the
 *                  most draws did not settle them, by how much they may still be off, base unit
 * @param never     share of the draws in which it never came
 * @param already   share of the draws in which it had come before anything was watched
 * @param quantiles points of the distribution function, as far as they are finite, rising
 */
public record Propagation(
        long seed,
        long trials,
        double mean,
        double standard,
        double tolerance,
        double never,
        double already,
        List<Quantile> quantiles) {

    /**
     * The value that the quantity stays below with the probability that a normal deviate stays below {@code deviate}.
     */
    public record Quantile(double deviate, double value) {}

    /** Quantiles go from minus to plus so many standard deviations of a normal distribution. */
    static final double FARTHEST = 3.5;
    /** Steps from one quantile to the next. */
    static final double STEP = 0.125;

    public Propagation {
        quantiles = List.copyOf(quantiles);
        if (quantiles.isEmpty()) {
            throw new IllegalArgumentException("a distribution without a single finite quantile");
        }
    }

    /**
     * Lower end of the probabilistically symmetric interval of 95.45 %, lower yet by what it may be off where it did
     * not settle; negative infinity if it has none.
     */
    public double lower() {
        return already > Student.TAIL ? Double.NEGATIVE_INFINITY : value(-Student.NORMAL_FACTOR) - unsettled();
    }

    /** Upper end of that interval, higher likewise; positive infinity if it has none. */
    public double upper() {
        return never > Student.TAIL ? Double.POSITIVE_INFINITY : value(Student.NORMAL_FACTOR) + unsettled();
    }

    private double unsettled() {
        return settled() ? 0 : tolerance;
    }

    /** True if both ends of the interval are figures. */
    public boolean bounded() {
        return never <= Student.TAIL && already <= Student.TAIL;
    }

    /**
     * True if value and both ends of the interval settled; otherwise as many draws were made as are made at the most,
     * and they came no closer than the tolerance.
     */
    public boolean settled() {
        return trials < MonteCarlo.TRIALS_MOST || tolerance <= asked();
    }

    /** Tolerance within which they were to settle, base unit. */
    public double asked() {
        double quarter = (value(Student.NORMAL_FACTOR) - value(-Student.NORMAL_FACTOR)) / 4;
        return MonteCarlo.tolerance(bounded() ? Math.min(quarter, standard) : standard);
    }

    /** Probability that the quantity is at most that, within 0.02 %, which is as far as the quantiles go. */
    public double probability(double value) {
        double deviate = deviate(value);
        double below = Student.probability(deviate, Double.POSITIVE_INFINITY);
        return Math.max(already, Math.min(1 - never, below));
    }

    /** Between two quantiles in a straight line over the deviate, which is exact for a normal distribution. */
    private double value(double deviate) {
        Quantile before = quantiles.get(0);
        for (Quantile next : quantiles) {
            if (next.deviate >= deviate) {
                double run = next.deviate - before.deviate;
                double share = run == 0 ? 0 : (deviate - before.deviate) / run;
                return before.value + share * (next.value - before.value);
            }
            before = next;
        }
        return before.value;
    }

    private double deviate(double value) {
        Quantile first = quantiles.get(0);
        Quantile last = quantiles.get(quantiles.size() - 1);
        if (value < first.value) {
            return already > 0 ? Double.NEGATIVE_INFINITY : first.deviate;
        }
        if (value >= last.value) {
            return never > 0 ? Double.POSITIVE_INFINITY : last.deviate;
        }
        Quantile before = first;
        for (Quantile next : quantiles) {
            if (next.value > value) {
                double share = (value - before.value) / (next.value - before.value);
                return before.deviate + share * (next.deviate - before.deviate);
            }
            before = next;
        }
        return last.deviate;
    }
}
