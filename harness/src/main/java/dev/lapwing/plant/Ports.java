package dev.lapwing.plant;

/**
 * Many orifices in flat arrays, for the stepped kernels: the same law as {@link Orifice}, with everything that does not
 * change with pressure worked out beforehand.
 */
final class Ports {
    private final double temperatureFactor;
    private final double[] conductance;
    private final double[] criticalRatio;
    private final double[] inverse;
    private final double[] linear;

    /** Ports that are all shut, for air at a temperature in K. */
    Ports(int count, double kelvin) {
        temperatureFactor = Math.sqrt(Orifice.REFERENCE_KELVIN / kelvin);
        conductance = new double[count];
        criticalRatio = new double[count];
        inverse = new double[count];
        linear = new double[count];
    }

    /** Makes one port an orifice whose conductance is multiplied by a factor. */
    void set(int port, Orifice orifice, double factor) {
        double b = orifice.criticalRatio();
        conductance[port] = orifice.conductance() * factor * Orifice.REFERENCE_DENSITY * temperatureFactor;
        criticalRatio[port] = b;
        inverse[port] = 1 / (1 - b);
        linear[port] = Orifice.slopeNearEquality(b);
    }

    boolean shut(int port) {
        return conductance[port] == 0;
    }

    /** Mass flow in kg/s from a higher to a lower absolute pressure. */
    double flow(int port, double high, double low) {
        double critical = criticalRatio[port] * high;
        if (low <= critical) {
            return conductance[port] * high;
        }
        if (low >= Orifice.LINEAR_RATIO * high) {
            return conductance[port] * linear[port] * (high - low);
        }
        double y = (low - critical) * inverse[port];
        return conductance[port] * Math.sqrt((high - y) * (high + y));
    }

    /**
     * Mass in kg that passes in a step, at any step without passing the point where both sides are equal.
     *
     * @param slope sum over both sides of the pressure change per mass, in Pa/kg
     * @param share share of the port that is open
     */
    // Between two volumes a linear flow decays as e^(−z) with z = dt·(q/Δp)·slope, and passes q·dt·(1 − e^(−z))/z in a
    // step.
    // 1/(1 + z/2 + z²/12) agrees with that to z³ and leaves the difference positive at every z, whatever the step.
    double pass(int port, double share, double high, double low, double slope, double seconds) {
        double difference = high - low;
        if (!(difference > 0)) {
            return 0;
        }
        double mass = seconds * share * flow(port, high, low);
        double fall = mass * slope;
        double square = difference * difference;
        return mass * square / (square + fall * (0.5 * difference + fall * (1.0 / 12)));
    }
}
