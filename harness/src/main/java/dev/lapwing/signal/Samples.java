package dev.lapwing.signal;

import java.util.Optional;

/**
 * What the samples in a window come to at a glance, in the trace's unit; {@link Average} says how well it is known.
 *
 * @param count    how many, at least 1
 * @param mean     their mean
 * @param least    least sample
 * @param greatest greatest sample
 */
public record Samples(int count, double mean, double least, double greatest) {

    /** Of the samples in that window; empty if there are none. */
    public static Optional<Samples> of(Trace trace, Window window) {
        int from = trace.firstAtOrAfter(window.fromUs());
        int to = trace.firstAtOrAfter(window.toUs() + 1);
        if (to <= from) {
            return Optional.empty();
        }
        double first = trace.value(from);
        double sum = 0;
        double least = first;
        double greatest = first;
        for (int i = from; i < to; i++) {
            double value = trace.value(i);
            sum += value - first;
            least = Math.min(least, value);
            greatest = Math.max(greatest, value);
        }
        return Optional.of(new Samples(to - from, first + sum / (to - from), least, greatest));
    }
}
