package dev.lapwing.uncertainty;

import org.hipparchus.distribution.continuous.NormalDistribution;
import org.hipparchus.distribution.continuous.TDistribution;

/**
 * Student's t and the normal distribution that it becomes with many degrees of freedom. The library's arithmetic rests
 * on exact operations alone, so that it comes out the same on every machine.
 */
final class Student {
    /** Coverage factor of a normal distribution at {@link #LEVEL}. */
    static final double NORMAL_FACTOR = 2;
    /**
     * Level of confidence that a normal distribution has within two standard deviations, printed as 95.45 %
     * (JCGM 100:2008, G.6.6 and table G.2): k is 2 exactly where the uncertainty's own size is exact.
     */
    static final double LEVEL = 0.954499736103642;
    /** What lies beyond either end of a probabilistically symmetric interval of {@link #LEVEL}. */
    static final double TAIL = (1 - LEVEL) / 2;
    /** With so many degrees of freedom k differs from 2 by less than what is ever printed. */
    private static final double MANY = 1e6;

    private static final NormalDistribution NORMAL = new NormalDistribution();

    private Student() {}

    /** Factor k for {@link #LEVEL} with so many degrees of freedom; 13.97 for one, 2 for very many. */
    static double coverageFactor(double degreesOfFreedom) {
        return degreesOfFreedom >= MANY ? NORMAL_FACTOR : quantile((1 + LEVEL) / 2, degreesOfFreedom);
    }

    /** The value that a deviate with so many degrees of freedom stays below with that probability. */
    static double quantile(double probability, double degreesOfFreedom) {
        return degreesOfFreedom >= MANY
                ? NORMAL.inverseCumulativeProbability(probability)
                : new TDistribution(degreesOfFreedom).inverseCumulativeProbability(probability);
    }

    /** Probability that a deviate stays below that value. */
    static double probability(double value, double degreesOfFreedom) {
        return degreesOfFreedom >= MANY
                ? NORMAL.cumulativeProbability(value)
                : new TDistribution(degreesOfFreedom).cumulativeProbability(value);
    }
}
