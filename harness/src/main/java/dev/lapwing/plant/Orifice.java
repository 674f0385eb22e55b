package dev.lapwing.plant;

/**
 * A flow restriction by its ISO 6358 characteristics.
 *
 * @param conductance   sonic conductance C in m³/(s·Pa), not negative; 1e-8 m³/(s·Pa) is 1 dm³/(s·bar); 0 is shut
 * @param criticalRatio critical back-pressure ratio b, in 0 (inclusive) to 1 (exclusive)
 */
public record Orifice(double conductance, double criticalRatio) {
    /** Density of the standard reference atmosphere in kg/m³. Source: ISO 8778 (100 kPa, 20 °C, 65 % humidity), from memory. */
    public static final double REFERENCE_DENSITY = 1.185;
    /** Temperature of the standard reference atmosphere in kelvin. Source: ISO 8778, ISO 6358-1. */
    public static final double REFERENCE_KELVIN = 293.15;
    /** Above this ratio of downstream to upstream pressure the flow is taken as linear, which keeps its slope finite. */
    static final double LINEAR_RATIO = 0.995;

    public Orifice {
        Require.notNegative("sonic conductance", conductance, "m³/(s·Pa)");
        if (!(criticalRatio >= 0 && criticalRatio < 1)) {
            throw new IllegalArgumentException(
                    "critical pressure ratio must lie in 0..1 without 1, got " + criticalRatio);
        }
    }

    /** The same restriction with its conductance multiplied, as when it is partly blocked. */
    public Orifice times(double factor) {
        return new Orifice(conductance * factor, criticalRatio);
    }

    /**
     * Mass flow in kg/s, positive from the first pressure to the second.
     *
     * @param firstPascals  absolute pressure in Pa, not negative
     * @param secondPascals absolute pressure in Pa, not negative
     * @param kelvin        upstream stagnation temperature in K, above zero
     */
    public double massFlow(double firstPascals, double secondPascals, double kelvin) {
        double density = REFERENCE_DENSITY * Math.sqrt(REFERENCE_KELVIN / kelvin);
        return flow(conductance * density, criticalRatio, firstPascals, secondPascals);
    }

    /**
     * The kernel of the above for a restriction whose conductance already carries density and temperature.
     *
     * @param massConductance C·ρ0·√(T0/T1) in kg/(s·Pa)
     */
    // ISO 6358-1: choked m = C·ρ0·p1·√(T0/T1) for p2/p1 <= b; below choking times √(1 − ((p2/p1 − b)/(1 − b))²).
    // Here p1 stands inside the root, which saves the division: p1·√(1 − x²) = √((p1 − y)(p1 + y)), y = x·p1.
    static double flow(double massConductance, double b, double first, double second) {
        if (first < second) {
            return -flow(massConductance, b, second, first);
        }
        if (second <= b * first) {
            return massConductance * first;
        }
        double inverse = 1 / (1 - b);
        if (second >= LINEAR_RATIO * first) {
            double x = (LINEAR_RATIO - b) * inverse;
            return massConductance * Math.sqrt((1 - x) * (1 + x)) * (first - second) / (1 - LINEAR_RATIO);
        }
        double y = (second - b * first) * inverse;
        return massConductance * Math.sqrt((first - y) * (first + y));
    }
}
