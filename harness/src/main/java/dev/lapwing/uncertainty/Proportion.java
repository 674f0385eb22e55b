package dev.lapwing.uncertainty;

import org.hipparchus.distribution.continuous.BetaDistribution;

/**
 * A share of trials, and what is known of the probability behind it: the exact interval from the binomial distribution
 * (C. J. Clopper, E. S. Pearson, "The use of confidence or fiducial limits illustrated in the case of the binomial",
 * Biometrika 26 (1934) 404-413).
 *
 * @param hits   how many of the trials came out so
 * @param trials how many there were, at least 1
 */
public record Proportion(int hits, int trials) {
    public Proportion {
        if (trials < 1 || hits < 0 || hits > trials) {
            throw new IllegalArgumentException(hits + " of " + trials + " trials");
        }
    }

    public double share() {
        return hits / (double) trials;
    }

    /** Lower end of the interval of that level of confidence; 0 if there was no hit. */
    public double lower(double confidence) {
        return hits == 0
                ? 0
                : new BetaDistribution(hits, trials - hits + 1.0).inverseCumulativeProbability((1 - confidence) / 2);
    }

    /** Upper end of the interval of that level of confidence; 1 if every trial was a hit. */
    public double upper(double confidence) {
        return hits == trials
                ? 1
                : new BetaDistribution(hits + 1.0, trials - hits).inverseCumulativeProbability((1 + confidence) / 2);
    }
}
