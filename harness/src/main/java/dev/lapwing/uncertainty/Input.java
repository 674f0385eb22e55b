package dev.lapwing.uncertainty;

import dev.lapwing.quantity.Dimension;
import java.util.OptionalDouble;

/**
 * A source of doubt, as what it is itself: the uncertainty of an input quantity before its sensitivity (JCGM 100:2008,
 * 4.1 to 4.3).
 *
 * @param standard         its standard uncertainty (k = 1), 0 or more, in the base unit of {@code dimension}
 * @param dimension        what it is a figure of
 * @param evaluation       type A or type B
 * @param distribution     how its error is spread
 * @param degreesOfFreedom how well {@code standard} is known, above 0; empty where it is taken as exact (JCGM 100:2008,
 *                         G.4.3)
 */
public record Input(
        double standard,
        Dimension dimension,
        Evaluation evaluation,
        Distribution distribution,
        OptionalDouble degreesOfFreedom) {

    public Input {
        if (!(standard >= 0 && Double.isFinite(standard))) {
            throw new IllegalArgumentException("a standard uncertainty must be finite and 0 or more, got " + standard);
        }
        if (degreesOfFreedom.isPresent() && !(degreesOfFreedom.getAsDouble() > 0)) {
            throw new IllegalArgumentException(
                    "degrees of freedom must be above 0, got " + degreesOfFreedom.getAsDouble());
        }
    }

    /** Type B, normal: as a certificate or a data sheet states it. */
    public static Input stated(double standard, Dimension dimension) {
        return new Input(standard, dimension, Evaluation.B, Distribution.NORMAL, OptionalDouble.empty());
    }

    /** Type B, rectangular: known to lie within ± that half width. */
    public static Input within(double halfWidth, Dimension dimension) {
        return new Input(
                Estimate.rectangular(halfWidth),
                dimension,
                Evaluation.B,
                Distribution.RECTANGULAR,
                OptionalDouble.empty());
    }

    /** Type A: told from observations that leave so many degrees of freedom; fewer than 1 count as 1. */
    public static Input observed(double standard, Dimension dimension, double degreesOfFreedom) {
        return new Input(
                standard,
                dimension,
                Evaluation.A,
                Distribution.STUDENT,
                OptionalDouble.of(Math.max(1, degreesOfFreedom)));
    }
}
