package dev.lapwing.report;

import dev.lapwing.finding.Limit;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.quantity.Quantity;
import dev.lapwing.quantity.Unit;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Estimate;
import dev.lapwing.uncertainty.TwoDigits;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.stream.Collectors;

/**
 * Figures as their reader sees them, all in one unit. A value is printed to the last digit that its
 * uncertainty leaves, the uncertainty to two significant digits, rounded up (GUM 7.2.6).
 *
 * @param unit in which all are printed
 */
record Figures(Unit unit) {
    /** Significant digits of a figure without doubt. */
    private static final int EXACT = 6;

    private static final BigDecimal SLIGHT = new BigDecimal("0.0001");
    private static final String SUPERSCRIPTS = "⁰¹²³⁴⁵⁶⁷⁸⁹";

    /** For figures up to that size, base unit. */
    static Figures of(Dimension dimension, double largest, PressureDisplay display) {
        return new Figures(dimension == Dimension.TIME && largest < 1 ? Unit.MILLISECOND : display.unitFor(dimension));
    }

    /** {@code 3.680 ± 0.013 s}; skewed {@code 3.680 + 0.050 - 0.013 s}. */
    String measured(Estimate estimate) {
        double expanded = estimate.expanded();
        if (estimate.components().isEmpty() || expanded == 0) {
            return withUnit(exact(estimate.value()));
        }
        String doubt = estimate.propagated().isEmpty()
                ? " ± " + twoDigits(expanded)
                : " + " + twoDigits(estimate.above()) + " - " + twoDigits(estimate.below());
        return withUnit(digits().figure(estimate.value(), estimate) + doubt);
    }

    /** {@code 2 to 3.3 s}, {@code ≤ 3.3 s} or {@code ≥ 2 s}. */
    String limit(Limit limit) {
        if (limit.lower().isEmpty()) {
            return "≤ " + withUnit(written(limit.upper().orElseThrow()));
        }
        String lower = written(limit.lower().getAsDouble());
        return limit.upper().isEmpty()
                ? "≥ " + withUnit(lower)
                : withUnit(lower + " to " + written(limit.upper().getAsDouble()));
    }

    /** Distance to the limit, signed: {@code +0.620 s} inside, {@code -0.380 s} outside. */
    String margin(double margin, Estimate estimate) {
        String figure = estimate.expanded() == 0 ? exact(margin) : digits().figure(margin, estimate);
        return withUnit(figure.startsWith("-") ? figure : "+" + figure);
    }

    /** Expanded uncertainty, two significant digits. */
    String expanded(Estimate estimate) {
        return rounded(estimate.expanded());
    }

    /** An uncertainty, two significant digits. */
    String rounded(double uncertainty) {
        return withUnit(twoDigits(uncertainty));
    }

    /** A standard uncertainty (k = 1) of something else, in a unit that suits it. */
    static String standard(double standard, Dimension dimension, PressureDisplay display) {
        Figures own = Figures.of(dimension, Math.abs(standard), display);
        return own.withUnit(slight(own.twoDigits(standard)));
    }

    /**
     * What one unit of something else makes of this figure, two significant digits: {@code -0.12 s per psi}; of its own
     * kind, a number.
     */
    String sensitivity(double sensitivity, Dimension of, double size, PressureDisplay display) {
        Unit per = of == unit.dimension() ? unit : Figures.of(of, size, display).unit;
        double one = sensitivity * per.toBase(1);
        String digits = (one < 0 ? "-" : "") + slight(twoDigits(Math.abs(one)));
        return per == unit ? digits : digits + " " + unit.symbol() + " per " + per.symbol();
    }

    /** A contribution to an uncertainty (k = 1), as far as it matters to the whole. */
    String contribution(Component component, Estimate of) {
        return Math.abs(component.standard()) < of.standardUncertainty() / 1000
                ? "negligible"
                : withUnit(slight(twoDigits(Math.abs(component.standard()))));
    }

    /** A figure that somebody wrote, with its unit. */
    String written(double base, boolean unitToo) {
        return unitToo ? withUnit(written(base)) : written(base);
    }

    private String written(double base) {
        return new Quantity(base, unit.dimension()).digits(unit);
    }

    /** Nothing of it is in doubt. */
    private String exact(double base) {
        BigDecimal figure = new BigDecimal(unit.fromBase(base))
                .round(new MathContext(EXACT, RoundingMode.HALF_EVEN))
                .stripTrailingZeros();
        return figure.signum() == 0 ? "0" : figure.toPlainString();
    }

    private TwoDigits digits() {
        return new TwoDigits(unit);
    }

    private String twoDigits(double uncertainty) {
        return digits().of(uncertainty);
    }

    /** A figure that takes many noughts, by a power of ten: {@code 7.2·10⁻⁷}. */
    private static String slight(String digits) {
        BigDecimal figure = new BigDecimal(digits);
        if (figure.signum() == 0 || figure.abs().compareTo(SLIGHT) >= 0) {
            return digits;
        }
        int power = figure.scale() - figure.precision() + 1;
        String raised = Integer.toString(power)
                .chars()
                .mapToObj(digit -> SUPERSCRIPTS.substring(digit - '0', digit - '0' + 1))
                .collect(Collectors.joining());
        return figure.movePointRight(power).toPlainString() + "·10⁻" + raised;
    }

    private String withUnit(String digits) {
        return unit.dimension() == Dimension.COUNT ? digits : digits + " " + unit.symbol();
    }
}
