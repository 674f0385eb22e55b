package dev.lapwing.plant;

/**
 * A flow restriction by its ISO 6358 characteristics.
 *
 * @param conductance   sonic conductance C in m³/(s·Pa), not negative; 1e-8 m³/(s·Pa) is 1 dm³/(s·bar); 0 is shut
 * @param criticalRatio critical back-pressure ratio b, in 0 to below 0.995
 */
public record Orifice(double conductance, double criticalRatio) {
    /** Density of the standard reference atmosphere, kg/m³. Source: ISO 8778 (100 kPa, 20 °C, 65 %), from memory. */
    public static final double REFERENCE_DENSITY = 1.185;
    /** Temperature of the standard reference atmosphere in kelvin. Source: ISO 8778, ISO 6358-1. */
    public static final double REFERENCE_KELVIN = 293.15;
    /**
     * Above this ratio of downstream to upstream pressure the flow is taken as linear, which keeps its slope finite.
     */
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
     * One restriction that stands for this one followed by another: 1/C² = 1/C1² + 1/C2², with the smaller critical
     * ratio. The rule is exact for a small pressure drop and an approximation where a restriction chokes.
     */
    // Same structure as resistances that add by squares of flow; common practice, no source.
    public Orifice inSeriesWith(Orifice other) {
        double b = Math.min(criticalRatio, other.criticalRatio);
        if (conductance == 0 || other.conductance == 0) {
            return new Orifice(0, b);
        }
        double first = conductance / other.conductance;
        return new Orifice(conductance / Math.sqrt(1 + first * first), b);
    }

    /**
     * Mass flow in kg/s, positive from the first pressure to the second.
     *
     * @param firstPascals  absolute pressure in Pa, not negative
     * @param secondPascals absolute pressure in Pa, not negative
     * @param kelvin        upstream stagnation temperature in K, above zero
     */
    // ISO 6358-1: choked m = C·ρ0·p1·√(T0/T1) for p2/p1 <= b, else times √(1 − ((p2/p1 − b)/(1 − b))²). Here p1 stands
    // inside the root, which saves a division: p1·√(1 − x²) = √((p1 − y)(p1 + y)) with y = x·p1.
    public double massFlow(double firstPascals, double secondPascals, double kelvin) {
        double high = Math.max(firstPascals, secondPascals);
        double low = Math.min(firstPascals, secondPascals);
        double sign = firstPascals < secondPascals ? -1 : 1;
        double k = sign * conductance * REFERENCE_DENSITY * Math.sqrt(REFERENCE_KELVIN / kelvin);
        if (low <= criticalRatio * high) {
            return k * high;
        }
        if (low >= LINEAR_RATIO * high) {
            return k * slopeNearEquality(criticalRatio) * (high - low);
        }
        double y = (low - criticalRatio * high) / (1 - criticalRatio);
        return k * Math.sqrt((high - y) * (high + y));
    }

    /** Flow per conductance and pressure difference where the law is taken as linear, dimensionless. */
    static double slopeNearEquality(double criticalRatio) {
        double x = (LINEAR_RATIO - criticalRatio) / (1 - criticalRatio);
        return Math.sqrt((1 - x) * (1 + x)) / (1 - LINEAR_RATIO);
    }
}
