package dev.lapwing.signal;

import java.util.Optional;
import java.util.function.DoubleSupplier;

/**
 * The greatest slope of a signal over a stated width, by {@link Thirds}. Spikes shorter than a sixth of the width are
 * taken out before. What straight lines between samples cut off the bends is told by what leaving out every other
 * sample changes: a chord twice as long misses a parabola by four times as much, so that a third of it is what is
 * missing (L. F. Richardson's extrapolation). What noise adds to the greatest of many slopes is taken off; see {@link
 * Luck}.
 *
 * @param slope     greatest slope in the direction asked for, the trace's unit per s, positive in that direction
 * @param fromNoise standard uncertainty of one such slope from the scatter of the samples, in the unit of the slope
 * @param luck      bound of what noise may have added to it beyond what was taken off, likewise
 * @param bend      bound of what is left of the bends between samples, likewise
 * @param first     mean of the first third, the trace's unit
 * @param last      mean of the last third, the trace's unit
 * @param region    where it was
 */
public record SteepestSlope(
        double slope, double fromNoise, double luck, double bend, double first, double last, Window region) {
    private static final int THIRD_LEAST = 5;

    /**
     * Of the samples in a window.
     *
     * @param noise  standard deviation of one sample, rounding to counts included, the trace's unit
     * @param normal draws of a standard normal deviate, the same ones for the same samples
     * @return empty if a third of the width is shorter than five samples, or the window holds less than the width
     */
    public static Optional<SteepestSlope> of(
            Trace trace, boolean rising, Window window, long widthUs, double noise, DoubleSupplier normal) {
        double every = every(trace, window);
        double third = widthUs * 1e-6 / 3;
        if (third < THIRD_LEAST * every) {
            return Optional.empty();
        }
        Trace whole = Despiked.of(trace, window, (int) (third / 2 / every), noise);
        double start = (whole.timeUs(0) - window.fromUs()) * 1e-6;
        double lasts = (whole.timeUs(whole.size() - 1) - whole.timeUs(0)) * 1e-6;
        return lasts <= 3 * third
                ? Optional.empty()
                : Optional.of(new Search(whole, window.fromUs(), rising ? 1 : -1, third, every)
                        .greatest(start, lasts, noise, normal));
    }

    /** What lasts less than this, in µs, is taken for a spike where slopes are sought over such a width, in µs. */
    public static long spikeUs(long widthUs) {
        return widthUs / 6;
    }

    /** Mean sample interval in s. */
    private static double every(Trace trace, Window window) {
        int from = trace.firstAtOrAfter(window.fromUs());
        int to = trace.firstAtOrAfter(window.toUs() + 1) - 1;
        return to <= from ? window.seconds() : (trace.timeUs(to) - trace.timeUs(from)) * 1e-6 / (to - from);
    }

    /** A trace without spikes, and what is sought in it; times in s. */
    private record Search(Trace trace, long zeroUs, int sign, double third, double every) {

        SteepestSlope greatest(double start, double lasts, double noise, DoubleSupplier normal) {
            Thirds thirds = thirds(trace);
            int places = 1 + (int) ((lasts - 3 * third) / thirds.stride());
            double[] slopes = thirds.slopes(start, places, sign);
            int steepest = 0;
            for (int i = 0; i < places; i++) {
                steepest = slopes[i] > slopes[steepest] ? i : steepest;
            }
            double early = start + Math.max(0, steepest - 1) * thirds.stride();
            double late = start + Math.min(places - 1, steepest + 1) * thirds.stride();
            double at = thirds.steepest(early, late, sign);
            double each = Math.sqrt(2 * every / third) * noise / (2 * third);
            Luck luck = Luck.of(slopes, each, () -> thirds.noise(places, every, normal));
            double bend = bend(thirds, at);
            long fromUs = zeroUs + Math.round(at * 1e6);
            double base = trace.value(0);
            return new SteepestSlope(
                    sign * (thirds.at(at) + bend) - luck.excess(),
                    each,
                    luck.bound(),
                    Math.abs(bend) / 2,
                    base + thirds.mean(at),
                    base + thirds.mean(at + 2 * third),
                    new Window(fromUs, fromUs + Math.round(3e6 * third)));
        }

        private Thirds thirds(Trace samples) {
            return new Thirds(new Integral(samples, zeroUs), third);
        }

        /** What is missing of the slope there. */
        private double bend(Thirds thirds, double at) {
            double even = thirds(new EveryOther(trace, 0)).at(at);
            double odd = thirds(new EveryOther(trace, 1)).at(at);
            return (thirds.at(at) - (even + odd) / 2) / 3;
        }
    }
}
