package dev.lapwing.signal;

import java.util.Optional;
import java.util.function.DoubleUnaryOperator;

/**
 * A signal that goes up in steps, under noise that hides them from one sample: a smooth curve through it goes through a
 * level somewhere on a step, where the signal itself waits. What gives it away are means over an eighth of the region.
 *
 * @param region which the curve rests on
 * @param rising true for steps up
 * @param noise  standard deviation of one sample, the trace's unit
 */
record Stairs(Trace trace, Window region, boolean rising, double noise) {
    private static final int BLOCKS = 8;
    /** A mean further off the curve than so many of its standard deviations is no noise ... */
    private static final double CLEAR = 5;
    /** ... and further than that share of the rise over the region no smooth bend. Common practice, no source. */
    private static final double SHARE = 1.0 / 16;

    /**
     * How far from that time the signal itself may have passed a level, in s; 0 where the curve is as good as its
     * samples.
     *
     * @param curve     smooth: its value so many s after the middle of the region
     * @param atSeconds time that the curve tells, after the middle of the region
     */
    double off(DoubleUnaryOperator curve, double level, double atSeconds) {
        double block = region.seconds() / BLOCKS;
        double rise = Math.abs(curve.applyAsDouble(region.seconds() / 2) - curve.applyAsDouble(-region.seconds() / 2));
        boolean steps = false;
        double passed = -region.seconds() / 2;
        for (int i = 0; i < BLOCKS; i++) {
            double middle = block * (i - (BLOCKS - 1) / 2.0);
            Optional<Samples> samples = Samples.of(trace, block(i));
            if (samples.isEmpty()) {
                return 0;
            }
            double mean = samples.get().mean();
            double least = Math.max(CLEAR * noise / Math.sqrt(samples.get().count()), SHARE * rise);
            steps |= Math.abs(mean - curve.applyAsDouble(middle)) > least;
            if (rising ? mean <= level : mean >= level) {
                passed = middle + block / 2;
            }
        }
        return steps ? Math.abs(atSeconds - passed) + block : 0;
    }

    private Window block(int i) {
        long lastsUs = region.toUs() - region.fromUs();
        return new Window(region.fromUs() + i * lastsUs / BLOCKS, region.fromUs() + (i + 1) * lastsUs / BLOCKS - 1);
    }
}
