package dev.lapwing.quantity;

/**
 * What kind of quantity a figure is. Inside the harness every figure is a plain {@code double} in the dimension's base
 * unit; a unit is named only where people read or write.
 */
public enum Dimension {
    /** Gauge pressure, or a difference of two pressures, in Pa. */
    PRESSURE("Pa", "a pressure such as '50 psi' or '3.4 bar'"),
    /** Pressure above vacuum, in Pa. */
    ABSOLUTE_PRESSURE("Pa abs", "an absolute pressure such as '14.7 psi abs'"),
    /** Change of pressure with time, in Pa/s, told for each second: of what applies, releases, is dumped. */
    PRESSURE_RATE("Pa/s", "a rate such as '90 psi/s'"),
    /** Change of pressure with time, in Pa/s, told for each minute: of what should keep its pressure. */
    LEAK_RATE("Pa/s", "a leak such as '3 psi/min'"),
    /** Time, in s. */
    TIME("s", "a time such as '250 ms' or '1.2 s'"),
    /** Electric potential, in V. */
    VOLTAGE("V", "a voltage such as '110 V'"),
    /** Share of the nominal supply voltage, 1 at nominal. */
    NOMINAL_SHARE("Un", "a share of the nominal supply such as '0.7 Un'"),
    /** A share of a whole, 1 for all of it. */
    RATIO("1", "a share such as '60 %'"),
    /** Angle, in degrees: handle arcs are drawn and adjusted in degrees, and never enter a formula. */
    ANGLE("deg", "an angle such as '30 degrees'"),
    /** Speed, in m/s. */
    SPEED("m/s", "a speed such as '30 km/h'"),
    /** Volume, in m³. */
    VOLUME("m3", "a volume such as '38 l'"),
    /** Length, in m. */
    LENGTH("m", "a length such as '22 m' or '25.4 mm'"),
    /** Sonic conductance by ISO 6358, in m³/(s·Pa) at reference conditions. */
    CONDUCTANCE("m3/(s.Pa)", "a sonic conductance such as '2.6 dm3/(s.bar)'"),
    /** Electrical resistance, in Ω. */
    RESISTANCE("ohm", "a resistance such as '2 ohm'"),
    /** Free air per time (at ambient pressure), in m³/s. */
    VOLUME_FLOW("m3/s", "a free-air flow such as '900 l/min'"),
    /** Electric current, in A. */
    CURRENT("A", "a current such as '0.4 A'"),
    /** Rate of a clock or oscillator against true time, as a plain share. */
    CLOCK_RATE("1", "a clock rate such as '50 ppm'"),
    /** Number of things or happenings. */
    COUNT("", "a count such as '2 times'"),
    /** Counts of a converter, the raw figure before calibration. */
    CONVERTER_COUNT("counts", "converter counts such as '16384 counts'");

    private final String baseUnit;
    private final String example;

    Dimension(String baseUnit, String example) {
        this.baseUnit = baseUnit;
        this.example = example;
    }

    /** Symbol of the unit that the bare {@code double} of this dimension is in. */
    public String baseUnit() {
        return baseUnit;
    }

    /** What to write for a figure of this kind, for error messages: {@code a pressure such as '50 psi'}. */
    public String example() {
        return example;
    }
}
