package dev.lapwing.simulated;

/**
 * The bench's clock against true time: it starts at {@link #START_US} and runs by a constant share too fast or too
 * slow. True time counts from the start, in ns.
 */
final class SimulatedClock {
    /** Bench time at the start, µs: it has been on for a second when somebody connects. */
    static final long START_US = 1_000_000;

    private final double rate;

    /** @param rateError share by which it runs too fast, negative too slow */
    SimulatedClock(double rateError) {
        rate = 1 + rateError;
    }

    /** What it shows at a true instant, in whole µs that have passed. */
    long us(long trueNs) {
        return START_US + (long) Math.floor(trueNs * 1e-3 * rate);
    }

    /** The first true instant at which it shows that time, to a ns. */
    long ns(long us) {
        return (long) Math.ceil((us - START_US) * 1e3 / rate);
    }
}
