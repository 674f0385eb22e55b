package dev.lapwing.measure;

import dev.lapwing.signal.Trace;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Instrument;
import java.util.Optional;

/**
 * A stretch in which a channel gave the same count over and over, though its noise would have moved it: its transducer
 * does not tell what happens.
 *
 * @param samples how many equal samples in a row
 */
record Standstill(int samples) {
    /** So many equal samples in a row are no accident where one sample's noise is half a count or more. */
    private static final int SAMPLES_MOST = 50;
    /** Fewer may be a converter that is read more often than it converts. Common practice, no source. */
    private static final int SAMPLES_LEAST = 10;
    /** The same, in µs: usual converters of such channels give at least ten readings a second. */
    private static final long LEAST_US = 100_000;
    /** A standstill is an accident once in so many times, as a power of ten; a long run has some 1e6 samples. */
    private static final double ACCIDENT_EXPONENT = 12;
    /** A channel may be quieter than is said of it by this factor. Common practice, no source. */
    private static final double QUIETER = 2;

    /** The first one of which any part lies in that window, if there is one. */
    static Optional<Standstill> in(Sampled sampled, Window window) {
        Instrument instrument = sampled.instrument();
        if (instrument.noise() <= 0 || instrument.noise() < instrument.resolution() / 2) {
            return Optional.empty();
        }
        Trace trace = sampled.trace();
        int enough = enough(instrument);
        int from = trace.firstAtOrAfter(window.fromUs());
        int to = trace.firstAtOrAfter(window.toUs() + 1);
        // A row of so many holds two neighbours of every stride.
        int stride = enough - 1;
        int first = Math.max(0, from - stride);
        int end = Math.min(trace.size(), to + stride);
        if (trace.longestRow(first, end) < enough) {
            return Optional.empty();
        }
        for (int i = first; i < end - 1; i += stride) {
            if (trace.value(i) != trace.value(i + 1)) {
                continue;
            }
            int begin = begin(trace, i);
            int after = end(trace, i);
            long lastedUs = trace.timeUs(after - 1) - trace.timeUs(begin) + sampled.everyUs();
            if (after - begin >= enough && lastedUs >= LEAST_US && begin < to && after > from) {
                return Optional.of(new Standstill(after - begin));
            }
        }
        return Optional.empty();
    }

    /** Index of the first sample that equals the one at {@code at} without a break. */
    private static int begin(Trace trace, int at) {
        int begin = at;
        while (begin > 0 && trace.value(begin - 1) == trace.value(at)) {
            begin--;
        }
        return begin;
    }

    /** Index after the last sample that equals the one at {@code at} without a break. */
    private static int end(Trace trace, int at) {
        int end = at + 1;
        while (end < trace.size() && trace.value(end) == trace.value(at)) {
            end++;
        }
        return end;
    }

    /**
     * How many equal samples are no accident. A sample of normal noise falls on a given count with at most the greatest
     * density times the count's width, q / (σ·√(2π)); so many in a row by chance with at most the power of that.
     */
    private static int enough(Instrument instrument) {
        double share = QUIETER * instrument.resolution() / (instrument.noise() * Math.sqrt(2 * Math.PI));
        double row = share < 1 ? 1 - ACCIDENT_EXPONENT / StrictMath.log10(share) : SAMPLES_MOST;
        return (int) Math.max(SAMPLES_LEAST, Math.min(SAMPLES_MOST, Math.ceil(row)));
    }
}
