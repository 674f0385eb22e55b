package dev.lapwing.finding;

import dev.lapwing.quantity.Dimension;
import dev.lapwing.uncertainty.Conformity;
import dev.lapwing.uncertainty.DecisionRule;
import dev.lapwing.uncertainty.Estimate;
import java.util.OptionalDouble;

/**
 * What a measured value is held against, resolved from an acceptance figure.
 *
 * @param figure             name of the acceptance figure, or a description where it was written in the sequence
 * @param dimension          of both ends
 * @param lower              least allowed, base unit; empty if there is no lower end
 * @param upper              greatest allowed, base unit; empty if there is no upper end
 * @param rule               how it is decided
 * @param largestUncertainty greatest expanded uncertainty U (base unit) with which a one-sided limit may still be
 *                           decided; empty if none was agreed
 * @param source             where the figure comes from (standard, clause; drawing; common practice)
 * @param place              where it stands, {@code file:line:column}
 */
public record Limit(
        String figure,
        Dimension dimension,
        OptionalDouble lower,
        OptionalDouble upper,
        DecisionRule rule,
        OptionalDouble largestUncertainty,
        String source,
        String place) {

    public Limit {
        if (lower.isEmpty() && upper.isEmpty()) {
            throw new IllegalArgumentException("limit " + figure + " has neither a lower nor an upper end");
        }
    }

    /** How likely what was measured is inside, really. */
    public Conformity conformity(Estimate measured) {
        return Conformity.of(measured, lower, upper);
    }

    /** True if all of the 95.45 % interval of what was measured is inside: guarded acceptance with w = U. */
    public boolean holds(Estimate measured) {
        double value = measured.value();
        return value - measured.below() >= lower.orElse(Double.NEGATIVE_INFINITY)
                && value + measured.above() <= upper.orElse(Double.POSITIVE_INFINITY);
    }

    /** True if all of that interval is outside: guarded rejection. */
    public boolean excludes(Estimate measured) {
        double value = measured.value();
        return value + measured.above() < lower.orElse(Double.NEGATIVE_INFINITY)
                || value - measured.below() > upper.orElse(Double.POSITIVE_INFINITY);
    }

    /** Distance of a value to the nearest end, base unit; negative outside. */
    public double margin(double value) {
        return Math.min(
                lower.isPresent() ? value - lower.getAsDouble() : Double.POSITIVE_INFINITY,
                upper.isPresent() ? upper.getAsDouble() - value : Double.POSITIVE_INFINITY);
    }
}
