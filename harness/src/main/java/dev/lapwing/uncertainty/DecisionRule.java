package dev.lapwing.uncertainty;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.OptionalDouble;

/**
 * How a measured value with its uncertainty is held against a limit; agreed before measuring (ILAC-G8, JCGM 106).
 *
 * @param kind whether there is a guard band
 * @param risk greatest chance, above 0 and up to {@value #RISK_GREATEST}, that a pass or a fail may be wrong; empty
 *             where the guard band is the expanded uncertainty, and for the simple rule
 */
public record DecisionRule(Kind kind, OptionalDouble risk) {
    /** Kinds of rules. */
    public enum Kind {
        GUARDED,
        SIMPLE
    }

    /** A greater risk guards nothing. Common practice, no source. */
    public static final double RISK_GREATEST = 0.1;

    /**
     * Guard band w = U on both sides of each limit: inside by U passes, outside by U fails, else inconclusive.
     */
    public static final DecisionRule GUARDED = new DecisionRule(Kind.GUARDED, OptionalDouble.empty());

    /** The value alone is compared with the limit. Never for a dump time. */
    public static final DecisionRule SIMPLE = new DecisionRule(Kind.SIMPLE, OptionalDouble.empty());

    public DecisionRule {
        if (risk.isPresent() && (kind == Kind.SIMPLE || !fit(risk.getAsDouble()))) {
            throw new IllegalArgumentException(kind + " with a risk of " + risk.getAsDouble());
        }
    }

    private static boolean fit(double risk) {
        return risk > 0 && risk <= RISK_GREATEST;
    }

    /** Guarded by a chosen risk: what is inside with a chance of at least 1 − risk passes, outside likewise fails. */
    public static DecisionRule guarded(double risk) {
        return new DecisionRule(Kind.GUARDED, OptionalDouble.of(risk));
    }

    public boolean guards() {
        return kind == Kind.GUARDED;
    }

    /** {@code simple}, {@code guarded} or {@code guarded, risk 1 %}. */
    public String text() {
        if (kind == Kind.SIMPLE) {
            return "simple";
        }
        return risk.isEmpty() ? "guarded" : "guarded, risk " + percent(risk.getAsDouble());
    }

    /**
     * A share as a reader is told it, to two digits: {@code 0.25 %}; near the whole to two of what is missing:
     * {@code 99.8 %}, so that only the whole is {@code 100 %}.
     */
    public static String percent(double share) {
        MathContext digits = new MathContext(2);
        BigDecimal percent = share >= 0.995
                ? new BigDecimal(100).subtract(new BigDecimal((1 - share) * 100).round(digits))
                : new BigDecimal(share * 100).round(digits);
        return percent.stripTrailingZeros().toPlainString() + " %";
    }
}
