package dev.lapwing.uncertainty;

import dev.lapwing.quantity.Dimension;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * A measured value and its uncertainty budget.
 *
 * @param value      in the dimension's base unit
 * @param dimension  what it is a figure of
 * @param components one for each source, signed; see {@link Component}
 */
public record Estimate(double value, Dimension dimension, List<Component> components) {

    public Estimate {
        if (!Double.isFinite(value)) {
            throw new IllegalArgumentException("an estimate must be finite, got " + value);
        }
        components = combined(components);
    }

    /** Combined standard uncertainty (k = 1), base unit; GUM 5.1.2 after contributions of one source were summed. */
    public double standardUncertainty() {
        double sum = 0;
        for (Component component : components) {
            sum += component.standard() * component.standard();
        }
        return Math.sqrt(sum);
    }

    /**
     * How well the combined standard uncertainty is known, by the Welch–Satterthwaite formula (GUM G.4.1, equation
     * G.2b), contributions of one source summed first; empty where all of them are taken as exact. Not cut to a whole
     * number: Student's t is as well defined between.
     */
    public OptionalDouble degreesOfFreedom() {
        double variance = standardUncertainty() * standardUncertainty();
        double sum = 0;
        for (Component component : components) {
            if (component.standard() != 0 && component.degreesOfFreedom().isPresent()) {
                double share = component.standard() * component.standard() / variance;
                sum += share * share / component.degreesOfFreedom().getAsDouble();
            }
        }
        return sum == 0 ? OptionalDouble.empty() : OptionalDouble.of(1 / sum);
    }

    /** Factor k from the standard to the expanded uncertainty, for a level of confidence of 95.45 %; 2 at the least. */
    public double coverageFactor() {
        OptionalDouble known = degreesOfFreedom();
        return known.isPresent() ? Student.coverageFactor(known.getAsDouble()) : Student.NORMAL_FACTOR;
    }

    /** {@link #coverageFactor()} as people read it: {@code 2}, {@code 2.13}. */
    public String coverageFactorText() {
        return new BigDecimal(coverageFactor())
                .setScale(2, RoundingMode.HALF_EVEN)
                .stripTrailingZeros()
                .toPlainString();
    }

    /** Expanded uncertainty U for a level of confidence of 95.45 % (k = 2 where its size is exact), base unit. */
    public double expanded() {
        return coverageFactor() * standardUncertainty();
    }

    /** The component that adds most; empty where nothing is in doubt. */
    public Optional<Component> dominant() {
        return components.stream()
                .filter(component -> component.standard() != 0)
                .max(Comparator.comparingDouble(component -> Math.abs(component.standard())));
    }

    /** Share of the variance that a component adds, 0 to 1. */
    public double share(Component component) {
        double standard = standardUncertainty();
        double ratio = standard == 0 ? 0 : component.standard() / standard;
        return ratio * ratio;
    }

    /** {@code a·this + b·other}; what both owe to one source adds or cancels as it does in truth. */
    public Estimate combine(double a, double b, Estimate other) {
        if (other.dimension != dimension) {
            throw new IllegalArgumentException("cannot combine " + dimension + " with " + other.dimension);
        }
        List<Component> both = new ArrayList<>();
        components.forEach(c -> both.add(c.times(a)));
        other.components.forEach(c -> both.add(c.times(b)));
        return new Estimate(a * value + b * other.value, dimension, both);
    }

    public Estimate minus(Estimate other) {
        return combine(1, -1, other);
    }

    /** The same estimate with one more contribution. */
    public Estimate with(Component component) {
        List<Component> more = new ArrayList<>(components);
        more.add(component);
        return new Estimate(value, dimension, more);
    }

    /** Multiplied by a factor without doubt, which makes a figure of that dimension of it. */
    public Estimate times(double factor, Dimension made) {
        return new Estimate(
                value * factor,
                made,
                components.stream().map(c -> c.times(factor)).toList());
    }

    /** With a figure without doubt added, in the base unit. */
    public Estimate plus(double exact) {
        return new Estimate(value + exact, dimension, components);
    }

    /**
     * Standard uncertainty of a quantity known only to lie within ± that half width, each value as likely (GUM
     * 4.3.7).
     */
    public static double rectangular(double halfWidth) {
        return halfWidth / Math.sqrt(3);
    }

    private static List<Component> combined(List<Component> parts) {
        Map<String, Component> bySource = new LinkedHashMap<>();
        parts.forEach(part -> bySource.merge(part.source(), part, Component::plus));
        return List.copyOf(bySource.values());
    }
}
