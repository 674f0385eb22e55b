package dev.lapwing.uncertainty;

import java.util.OptionalDouble;

/**
 * How likely the measured thing itself lies inside its limit, given what was measured and nothing known beforehand
 * (JCGM 106:2012, 7.2 to 7.4, 9.3.2): the truth is taken to be spread about the measured value as Student's t with the
 * estimate's degrees of freedom, a normal distribution where those are many, or as it was drawn by Monte Carlo.
 *
 * @param probability conformance probability, 0 to 1
 */
public record Conformity(double probability) {

    /** With either end left out where there is none, in the estimate's base unit. */
    public static Conformity of(Estimate measured, OptionalDouble lower, OptionalDouble upper) {
        if (measured.propagated().isPresent()) {
            Propagation drawn = measured.propagated().get();
            double below = lower.isPresent() ? drawn.probability(lower.getAsDouble()) : 0;
            double upTo = upper.isPresent() ? drawn.probability(upper.getAsDouble()) : 1;
            return new Conformity(Math.max(0, upTo - below));
        }
        double standard = measured.standardUncertainty();
        double value = measured.value();
        if (standard == 0) {
            boolean inside = value >= lower.orElse(value) && value <= upper.orElse(value);
            return new Conformity(inside ? 1 : 0);
        }
        double freedom = measured.degreesOfFreedom().orElse(Double.POSITIVE_INFINITY);
        double below = lower.isPresent() ? Student.probability((lower.getAsDouble() - value) / standard, freedom) : 0;
        double above = upper.isPresent() ? Student.probability((value - upper.getAsDouble()) / standard, freedom) : 0;
        return new Conformity(Math.max(0, 1 - below - above));
    }

    /** Specific consumer's risk: the chance that it is outside after all if it is passed. */
    public double consumersRisk() {
        return 1 - probability;
    }

    /** Specific producer's risk: the chance that it is inside after all if it is failed. */
    public double producersRisk() {
        return probability;
    }
}
