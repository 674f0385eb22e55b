package dev.lapwing.measure;

import dev.lapwing.finding.Limit;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.quantity.Quantity;
import dev.lapwing.quantity.Unit;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Estimate;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
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
     * {@code 2.34 s ± 0.02 s (k = 2)}, k by its degrees of freedom; skewed {@code 2.34 s + 0.05 s - 0.02 s (95.45 %,
     * Monte Carlo)}; where nothing is in doubt, the value alone.
     */
    public String estimate(Estimate estimate) {
        Unit unit = unit(estimate.value(), estimate.dimension());
        if (estimate.expanded() == 0) {
            return new Quantity(estimate.value(), estimate.dimension()).print(unit, 6);
        }
        BigDecimal above = twoDigits(unit, estimate.above());
        BigDecimal below = twoDigits(unit, estimate.below());
        int places = Math.max(0, Math.min(Math.max(above.scale(), below.scale()), 9));
        BigDecimal figure = new BigDecimal(unit.fromBase(estimate.value())).setScale(places, RoundingMode.HALF_EVEN);
        String doubt = estimate.propagated().isEmpty()
                ? " ± " + places(above, places) + symbol(unit)
                : " + " + places(above, places) + symbol(unit) + " - " + places(below, places) + symbol(unit);
        return figure.toPlainString() + symbol(unit) + doubt + " (" + estimate.coverage() + ")";
    }

    /** Away from 0 (GUM 7.2.6); digits that only come of converting units do not count. */
    private static BigDecimal twoDigits(Unit unit, double doubt) {
        return new BigDecimal(unit.fromBase(doubt))
                .round(new MathContext(9, RoundingMode.HALF_EVEN))
                .round(new MathContext(2, RoundingMode.UP));
    }

    private static String places(BigDecimal figure, int places) {
        return figure.setScale(places, RoundingMode.UP).toPlainString();
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

    private static String symbol(Unit unit) {
        return unit.symbol().isEmpty() ? "" : " " + unit.symbol();
    }
}
