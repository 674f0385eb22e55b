package dev.lapwing.plant;

/**
 * Many orifices in flat arrays, for the stepped kernels: the same law as {@link Orifice}, with everything that does not
 * change with pressure worked out beforehand.
 */
final class Ports {
    private static final int WIDTH = 4;
    private static final int CONDUCTANCE = 0;
    private static final int CRITICAL_RATIO = 1;
    private static final int INVERSE = 2;
    private static final int LINEAR = 3;

    private final double temperatureFactor;
    /** All figures of a port stand side by side, where one fetch from memory brings them. */
    private final double[] figures;

    /** Ports that are all shut, for air at a temperature in K. */
    Ports(int count, double kelvin) {
        temperatureFactor = Math.sqrt(Orifice.REFERENCE_KELVIN / kelvin);
        figures = new double[WIDTH * count];
    }

    /** Makes one port an orifice whose conductance is multiplied by a factor. */
    void set(int port, Orifice orifice, double factor) {
        double b = orifice.criticalRatio();
        int at = WIDTH * port;
        figures[at + CONDUCTANCE] = orifice.conductance() * factor * Orifice.REFERENCE_DENSITY * temperatureFactor;
        figures[at + CRITICAL_RATIO] = b;
        figures[at + INVERSE] = 1 / (1 - b);
        figures[at + LINEAR] = Orifice.slopeNearEquality(b);
    }

    boolean shut(int port) {
        return figures[WIDTH * port + CONDUCTANCE] == 0;
    }

    /** Mass flow in kg/s from a higher to a lower absolute pressure. */
    double flow(int port, double high, double low) {
        int at = WIDTH * port;
        double conductance = figures[at + CONDUCTANCE];
        double critical = figures[at + CRITICAL_RATIO] * high;
        if (low <= critical) {
            return conductance * high;
        }
        if (low >= Orifice.LINEAR_RATIO * high) {
            return conductance * figures[at + LINEAR] * (high - low);
        }
        double y = (low - critical) * figures[at + INVERSE];
        return conductance * Math.sqrt((high - y) * (high + y));
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

    /** Mass in kg that passes in a step, positive from the first side to the second; otherwise as {@link #pass}. */
    double exchange(int port, double share, double first, double second, double slope, double seconds) {
        return first >= second
                ? pass(port, share, first, second, slope, seconds)
                : -pass(port, share, second, first, slope, seconds);
    }
}
