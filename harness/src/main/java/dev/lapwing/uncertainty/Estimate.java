package dev.lapwing.uncertainty;

import dev.lapwing.quantity.Dimension;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

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

    /** Expanded uncertainty with k = 2, base unit. */
    public double expanded() {
        return 2 * standardUncertainty();
    }

    /** {@code a·this + b·other}; what both owe to one source adds or cancels as it does in truth. */
    public Estimate combine(double a, double b, Estimate other) {
        if (other.dimension != dimension) {
            throw new IllegalArgumentException("cannot combine " + dimension + " with " + other.dimension);
        }
        List<Component> both = new ArrayList<>();
        components.forEach(c -> both.add(new Component(c.source(), a * c.standard())));
        other.components.forEach(c -> both.add(new Component(c.source(), b * c.standard())));
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

    /**
     * Standard uncertainty of a quantity known only to lie within ± that half width, each value as likely (GUM
     * 4.3.7).
     */
    public static double rectangular(double halfWidth) {
        return halfWidth / Math.sqrt(3);
    }

    private static List<Component> combined(List<Component> parts) {
        Map<String, Double> bySource = new LinkedHashMap<>();
        parts.forEach(part -> bySource.merge(part.source(), part.standard(), Double::sum));
        return bySource.entrySet().stream()
                .map(entry -> new Component(entry.getKey(), entry.getValue()))
                .toList();
    }
}
