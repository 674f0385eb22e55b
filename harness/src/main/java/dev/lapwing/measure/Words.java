package dev.lapwing.measure;

import dev.lapwing.finding.Limit;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.quantity.Quantity;
import dev.lapwing.quantity.Unit;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Estimate;
import dev.lapwing.uncertainty.TwoDigits;
import java.math.BigDecimal;
import java.util.Locale;

/**
 * Figures as a reader is told them: with their unit, an uncertainty with its coverage factor.
 *
 * @param display the unit of pressures
 */
public record Words(PressureDisplay display) {
    private static final int DIGITS = 4;

    /** A figure in the dimension's base unit, to four digits. */
    public String value(double base, Dimension dimension) {
        return new Quantity(base, dimension).print(unit(base, dimension), DIGITS);
    }

    /**
     * {@code 2.34 s ± 0.02 s (k = 2)}, k by its degrees of freedom; skewed {@code 2.34 s + 1.2 s - 0.02 s (95.45 %,
     * Monte Carlo)}; where nothing is in doubt, the value alone.
     */
    public String estimate(Estimate estimate) {
        Unit unit = unit(estimate.value(), estimate.dimension());
        if (estimate.expanded() == 0) {
            return new Quantity(estimate.value(), estimate.dimension()).print(unit, 6);
        }
        TwoDigits digits = new TwoDigits(unit);
        String symbol = unit.symbol().isEmpty() ? "" : " " + unit.symbol();
        String doubt = estimate.propagated().isEmpty()
                ? " ± " + digits.of(estimate.expanded()) + symbol
                : " + " + digits.of(estimate.above()) + symbol + " - " + digits.of(estimate.below()) + symbol;
        return digits.figure(estimate.value(), estimate) + symbol + doubt + " (" + estimate.coverage() + ")";
    }

    /** {@code at most 3 s}, {@code at least 2 psi}, {@code between 69 psi and 71.5 psi}, {@code within ±1 psi}. */
    public String limit(Limit limit) {
        Dimension dimension = limit.dimension();
        if (limit.lower().isEmpty()) {
            return "at most " + written(limit.upper().getAsDouble(), dimension);
        }
        double lower = limit.lower().getAsDouble();
        if (limit.upper().isEmpty()) {
            return "at least " + written(lower, dimension);
        }
        double upper = limit.upper().getAsDouble();
        if (lower == -upper) {
            return "within ±" + written(upper, dimension);
        }
        return "between " + written(lower, dimension) + " and " + written(upper, dimension);
    }

    /** How far something is from a limit, without its sign, in the unit of the limit's greater end. */
    public String distance(double margin, Limit limit) {
        double end = Math.max(
                Math.abs(limit.lower().orElse(0)), Math.abs(limit.upper().orElse(0)));
        return new Quantity(Math.abs(margin), limit.dimension()).print(unit(end, limit.dimension()), DIGITS);
    }

    private String written(double base, Dimension dimension) {
        return new Quantity(base, dimension).written(unit(base, dimension));
    }

    /** A time in µs. */
    public String time(long us) {
        return value(us * 1e-6, Dimension.TIME);
    }

    /** A stretch of bench time as the key of what is read in it alone: {@code 12.340000-13.340000 s}. */
    static String span(Window window) {
        return seconds(window.fromUs()) + "-" + seconds(window.toUs()) + " s";
    }

    private static String seconds(long us) {
        return BigDecimal.valueOf(us, 6).toPlainString();
    }

    /** A clause made a sentence. */
    public static String sentence(String clause) {
        return clause.substring(0, 1).toUpperCase(Locale.ROOT) + clause.substring(1) + ".";
    }

    private Unit unit(double base, Dimension dimension) {
        if (dimension == Dimension.TIME && base != 0 && Math.abs(base) < 1) {
            return Unit.MILLISECOND;
        }
        return display.unitFor(dimension);
    }
}
