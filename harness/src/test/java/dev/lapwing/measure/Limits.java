package dev.lapwing.measure;

import static dev.lapwing.measure.HandMade.PSI;

import dev.lapwing.finding.Limit;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.uncertainty.DecisionRule;
import java.util.OptionalDouble;

/** Limits for tests. */
public final class Limits {
    private Limits() {}

    public static Limit atMost(Dimension dimension, double upper) {
        return of(dimension, OptionalDouble.empty(), OptionalDouble.of(upper), DecisionRule.GUARDED);
    }

    public static Limit atLeast(Dimension dimension, double lower) {
        return of(dimension, OptionalDouble.of(lower), OptionalDouble.empty(), DecisionRule.GUARDED);
    }

    public static Limit between(Dimension dimension, double lower, double upper) {
        return of(dimension, OptionalDouble.of(lower), OptionalDouble.of(upper), DecisionRule.GUARDED);
    }

    public static Limit psi(double lower, double upper) {
        return between(Dimension.PRESSURE, lower * PSI, upper * PSI);
    }

    public static Limit of(Dimension dimension, OptionalDouble lower, OptionalDouble upper, DecisionRule rule) {
        return new Limit("a-figure", dimension, lower, upper, rule, OptionalDouble.empty(), "a test", "test.yaml:1:1");
    }
}
