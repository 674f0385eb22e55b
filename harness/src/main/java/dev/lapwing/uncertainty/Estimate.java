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
 * @param components one for each source, signed; see {@link Component}. Where it was propagated by Monte Carlo, what
 *                   each adds if all others were exact, which need not sum to the whole (JCGM 101:2008, annex B)
 * @param propagated its distribution, where linear propagation does not hold; always with a bounded interval
 */
public record Estimate(
        double value, Dimension dimension, List<Component> components, Optional<Propagation> propagated) {

    /** By linear propagation. */
    public Estimate(double value, Dimension dimension, List<Component> components) {
        this(value, dimension, components, Optional.empty());
    }

    public Estimate {
        if (propagated.isPresent() && !propagated.get().bounded()) {
            throw new IllegalArgumentException("an estimate must have an interval with two ends");
        }
        if (!Double.isFinite(value)) {
            throw new IllegalArgumentException("an estimate must be finite, got " + value);
        }
        components = combined(components);
    }

    /**
     * Combined standard uncertainty (k = 1), base unit: GUM 5.1.2 after contributions of one source were summed, or the
     * standard deviation of the draws.
     */
    public double standardUncertainty() {
        return propagated.map(Propagation::standard).orElseGet(this::summed);
    }

    private double summed() {
        double sum = 0;
        for (Component component : components) {
            sum += component.standard() * component.standard();
        }
        return Math.sqrt(sum);
    }

    /**
     * How well the combined standard uncertainty is known, by the Welch–Satterthwaite formula (GUM G.4.1, equation
     * G.2b), contributions of one source summed first; empty where all of them are taken as exact, or are drawn as what
     * they are. Not cut to a whole number: Student's t is as well defined between.
     */
    public OptionalDouble degreesOfFreedom() {
        if (propagated.isPresent()) {
            return OptionalDouble.empty();
        }
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

    /**
     * Factor k from the standard to the expanded uncertainty, for a level of confidence of 95.45 %; 2 at the least,
     * but for what was drawn, where it only is what the two make.
     */
    public double coverageFactor() {
        if (propagated.isPresent()) {
            return expanded() / standardUncertainty();
        }
        OptionalDouble known = degreesOfFreedom();
        return known.isPresent() ? Student.coverageFactor(known.getAsDouble()) : Student.NORMAL_FACTOR;
    }

    /** How its interval was made, as people read it: {@code k = 2}, {@code k = 2.13}, {@code 95.45 %, Monte Carlo}. */
    public String coverage() {
        return propagated.isPresent()
                ? "95.45 %, Monte Carlo"
                : "k = "
                        + new BigDecimal(coverageFactor())
                                .setScale(2, RoundingMode.HALF_EVEN)
                                .stripTrailingZeros()
                                .toPlainString();
    }

    /**
     * Expanded uncertainty U for a level of confidence of 95.45 % (k = 2 where its size is exact), base unit; the
     * greater of {@link #below()} and {@link #above()}.
     */
    public double expanded() {
        return propagated.isPresent() ? Math.max(below(), above()) : coverageFactor() * standardUncertainty();
    }

    /** How far the 95.45 % interval goes below the value, base unit. */
    public double below() {
        return propagated.map(drawn -> Math.max(0, value - drawn.lower())).orElseGet(this::expanded);
    }

    /** How far the 95.45 % interval goes above the value, base unit. */
    public double above() {
        return propagated.map(drawn -> Math.max(0, drawn.upper() - value)).orElseGet(this::expanded);
    }

    /** True if that figure lies in the 95.45 % interval. */
    public boolean covers(double truth) {
        return truth >= value - below() && truth <= value + above();
    }

    /**
     * The same by its budget alone, made wide enough for the greater side of its interval: what sums and differences
     * are made of.
     */
    public Estimate linear() {
        if (propagated.isEmpty()) {
            return this;
        }
        double half = expanded() / Student.NORMAL_FACTOR;
        double more = half * half - summed() * summed();
        List<Component> wide = new ArrayList<>(components);
        if (more > 0) {
            wide.add(new Component("propagation/" + propagated.get().seed(), Math.sqrt(more)));
        }
        return new Estimate(value, dimension, wide);
    }

    /** The components as people read them: what of a source goes along a range, and what does not, in one line. */
    public List<Component> lines() {
        Map<String, Component> lines = new LinkedHashMap<>();
        components.forEach(part -> lines.merge(part.line(), part, Component::beside));
        return List.copyOf(lines.values());
    }

    /** The line that adds most; empty where nothing is in doubt. */
    public Optional<Component> dominant() {
        return lines().stream()
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
        linear().components.forEach(c -> both.add(c.times(a)));
        other.linear().components.forEach(c -> both.add(c.times(b)));
        return new Estimate(a * value + b * other.value, dimension, both);
    }

    public Estimate minus(Estimate other) {
        return combine(1, -1, other);
    }

    /** The same estimate with one more contribution. */
    public Estimate with(Component component) {
        List<Component> more = new ArrayList<>(linear().components);
        more.add(component);
        return new Estimate(value, dimension, more);
    }

    /** Multiplied by a factor without doubt, which makes a figure of that dimension of it. */
    public Estimate times(double factor, Dimension made) {
        return new Estimate(
                value * factor,
                made,
                linear().components.stream().map(c -> c.times(factor)).toList());
    }

    /** With a figure without doubt added, in the base unit. */
    public Estimate plus(double exact) {
        return new Estimate(value + exact, dimension, linear().components);
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
