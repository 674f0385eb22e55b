package dev.lapwing.quantity;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * A unit that people may write. Factors are exact by definition unless noted; psi follows from the international pound,
 * standard gravity and the inch (0.45359237 kg × 9.80665 m/s² ÷ (0.0254 m)², NIST SP 811).
 */
public enum Unit {
    PASCAL(Dimension.PRESSURE, 1, "Pa"),
    KILOPASCAL(Dimension.PRESSURE, 1e3, "kPa"),
    BAR(Dimension.PRESSURE, 1e5, "bar"),
    PSI(Dimension.PRESSURE, Unit.PASCALS_A_PSI, "psi"),
    PASCAL_ABSOLUTE(Dimension.ABSOLUTE_PRESSURE, 1, "Pa abs"),
    KILOPASCAL_ABSOLUTE(Dimension.ABSOLUTE_PRESSURE, 1e3, "kPa abs"),
    BAR_ABSOLUTE(Dimension.ABSOLUTE_PRESSURE, 1e5, "bar abs"),
    PSI_ABSOLUTE(Dimension.ABSOLUTE_PRESSURE, Unit.PASCALS_A_PSI, "psi abs"),
    PASCAL_A_SECOND(Dimension.PRESSURE_RATE, 1, "Pa/s"),
    PSI_A_MINUTE(Dimension.LEAK_RATE, Unit.PASCALS_A_PSI / 60, "psi/min"),
    PSI_A_SECOND(Dimension.PRESSURE_RATE, Unit.PASCALS_A_PSI, "psi/s"),
    BAR_A_MINUTE(Dimension.LEAK_RATE, 1e5 / 60, "bar/min"),
    BAR_A_SECOND(Dimension.PRESSURE_RATE, 1e5, "bar/s"),
    KILOPASCAL_A_MINUTE(Dimension.LEAK_RATE, 1e3 / 60, "kPa/min"),
    KILOPASCAL_A_SECOND(Dimension.PRESSURE_RATE, 1e3, "kPa/s"),
    MICROSECOND(Dimension.TIME, 1e-6, "us"),
    MILLISECOND(Dimension.TIME, 1e-3, "ms"),
    SECOND(Dimension.TIME, 1, "s"),
    MINUTE(Dimension.TIME, 60, "min"),
    VOLT(Dimension.VOLTAGE, 1, "V"),
    NOMINAL(Dimension.NOMINAL_SHARE, 1, "Un"),
    PERCENT(Dimension.RATIO, 1e-2, "%"),
    DEGREE(Dimension.ANGLE, 1, "degrees", "degree", "deg"),
    METRE_A_SECOND(Dimension.SPEED, 1, "m/s"),
    KILOMETRE_AN_HOUR(Dimension.SPEED, 1 / 3.6, "km/h"),
    LITRE(Dimension.VOLUME, 1e-3, "l"),
    CUBIC_METRE(Dimension.VOLUME, 1, "m3"),
    METRE(Dimension.LENGTH, 1, "m"),
    MILLIMETRE(Dimension.LENGTH, 1e-3, "mm"),
    DM3_PER_S_BAR(Dimension.CONDUCTANCE, 1e-8, "dm3/(s.bar)"),
    M3_PER_S_PA(Dimension.CONDUCTANCE, 1, "m3/(s.Pa)"),
    OHM(Dimension.RESISTANCE, 1, "ohm"),
    AMPERE(Dimension.CURRENT, 1, "A"),
    LITRE_A_MINUTE(Dimension.VOLUME_FLOW, 1e-3 / 60, "l/min"),
    PPM(Dimension.CLOCK_RATE, 1e-6, "ppm"),
    TIMES(Dimension.COUNT, 1, "times", "time"),
    COUNTS(Dimension.CONVERTER_COUNT, 1, "counts", "count");

    private static final double PASCALS_A_PSI = 6894.757293168361;

    private final Dimension dimension;
    private final double factor;
    private final List<String> spellings;

    Unit(Dimension dimension, double factor, String... spellings) {
        this.dimension = dimension;
        this.factor = factor;
        this.spellings = List.of(spellings);
    }

    public Dimension dimension() {
        return dimension;
    }

    /** The symbol to print. */
    public String symbol() {
        return spellings.get(0);
    }

    /** Every way of writing this unit that is read. */
    public List<String> spellings() {
        return spellings;
    }

    /** A figure in this unit, turned into the dimension's base unit. */
    public double toBase(double figure) {
        return figure * factor;
    }

    /** A figure in the dimension's base unit, turned into this unit. */
    public double fromBase(double figure) {
        return figure / factor;
    }

    /** The unit of that spelling; letter case counts, as it does in the SI. */
    public static Optional<Unit> spelled(String spelling) {
        return Arrays.stream(values())
                .filter(unit -> unit.spellings.contains(spelling))
                .findFirst();
    }

    /** The units in which a figure of that kind may be written. */
    public static List<Unit> of(Dimension dimension) {
        return Arrays.stream(values())
                .filter(unit -> unit.dimension == dimension)
                .toList();
    }
}
