package dev.lapwing.quantity;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A figure with what it is a figure of.
 *
 * @param base      the figure in the dimension's base unit; finite
 * @param dimension its kind
 */
public record Quantity(double base, Dimension dimension) {

    private static final Pattern WRITTEN =
            Pattern.compile("([+-]?(?:\\d+(?:\\.\\d+)?|\\.\\d+)(?:[eE][+-]?\\d+)?)(?:\\s*(\\S.*))?");

    private static final String COMMA = "[+-]?\\d+,\\d.*";

    /** More digits than anybody writes. */
    private static final int AS_WRITTEN = 6;

    private static final int CONVERTED = 4;
    /** Relative rounding of a figure that was turned into base units and back. */
    private static final double ROUNDED = 1e-12;

    public Quantity {
        if (!Double.isFinite(base)) {
            throw new IllegalArgumentException("a figure must be finite, got " + base);
        }
    }

    public static Quantity of(double figure, Unit unit) {
        return new Quantity(unit.toBase(figure), unit.dimension());
    }

    /** True for text that starts as a figure does, so that it is no name. */
    public static boolean looksLikeFigure(String text) {
        return text.strip().matches("[+-]?\\.?\\d.*");
    }

    /**
     * Reads a figure with its unit, such as {@code 3.4 bar}.
     *
     * @throws UnreadableQuantity if it is no figure, has no unit, or the unit is not known
     */
    public static Quantity parse(String text) throws UnreadableQuantity {
        Matcher written = WRITTEN.matcher(text.strip());
        if (!written.matches()) {
            throw new UnreadableQuantity("'" + text + "' is not a figure with a unit", "");
        }
        if (text.strip().matches(COMMA)) {
            throw new UnreadableQuantity(
                    "'" + text + "' has a comma; a point parts decimals, and nothing parts thousands", "");
        }
        String unitText = written.group(2);
        if (unitText == null) {
            throw new UnreadableQuantity("'" + text + "' has no unit", "");
        }
        Unit unit = Unit.spelled(unitText.strip().replaceAll("\\s+", " "))
                .orElseThrow(() -> new UnreadableQuantity("'" + unitText + "' is not a known unit", unitText));
        double figure = Double.parseDouble(written.group(1));
        if (!Double.isFinite(unit.toBase(figure))) {
            throw new UnreadableQuantity("'" + text + "' is too large a figure", "");
        }
        return of(figure, unit);
    }

    public double in(Unit unit) {
        if (unit.dimension() != dimension) {
            throw new IllegalArgumentException(unit + " does not measure " + dimension);
        }
        return unit.fromBase(base);
    }

    /** {@link #digits} and the unit's symbol. */
    public String written(Unit unit) {
        return unit.symbol().isEmpty() ? digits(unit) : digits(unit) + " " + unit.symbol();
    }

    /**
     * A figure that somebody wrote, in that unit: as it was written where {@value #AS_WRITTEN} significant digits are
     * all of it; to {@value #CONVERTED} where the digits only come of converting units. No trailing zeros.
     */
    public String digits(Unit unit) {
        double figure = in(unit);
        BigDecimal whole = new BigDecimal(figure).round(new MathContext(AS_WRITTEN, RoundingMode.HALF_EVEN));
        boolean all = Math.abs(whole.doubleValue() - figure) <= ROUNDED * Math.abs(figure);
        BigDecimal shown = all ? whole : whole.round(new MathContext(CONVERTED, RoundingMode.HALF_EVEN));
        return shown.signum() == 0 ? "0" : shown.stripTrailingZeros().toPlainString();
    }

    /** The figure in that unit with at most that many significant digits, no trailing zeros, and the unit's symbol. */
    public String print(Unit unit, int significantDigits) {
        BigDecimal figure = new BigDecimal(in(unit)).round(new MathContext(significantDigits, RoundingMode.HALF_EVEN));
        String digits = figure.signum() == 0 ? "0" : figure.stripTrailingZeros().toPlainString();
        return unit.symbol().isEmpty() ? digits : digits + " " + unit.symbol();
    }
}
