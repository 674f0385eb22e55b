package dev.lapwing.signal;

import java.util.Optional;

/**
 * The two states of a signal by the histogram of its samples (IEEE Std 181-2011, 5.2, from memory): the range between
 * least and greatest sample is halved, and the state of each half is the mode of its samples, made finer as the mean of
 * the samples in the fullest bin and its two neighbours.
 *
 * @param low  the lower one
 * @param high the upper one
 */
public record StateLevels(State low, State high) {
    private static final int BINS = 100;

    /**
     * A state.
     *
     * @param level     in the trace's unit
     * @param deviation standard deviation of the samples that make it
     * @param samples   how many
     */
    public record State(double level, double deviation, int samples) {}

    /** Of the samples in the window; empty if they are all alike or there are none. */
    public static Optional<StateLevels> of(Trace trace, Window window) {
        Optional<Average> all = Average.of(trace, window);
        if (all.isEmpty() || !(all.get().greatest() > all.get().least())) {
            return Optional.empty();
        }
        int from = trace.firstAtOrAfter(window.fromUs());
        int to = trace.firstAtOrAfter(window.toUs() + 1);
        double least = all.get().least();
        double width = (all.get().greatest() - least) / BINS;
        int[] counts = new int[BINS];
        for (int i = from; i < to; i++) {
            counts[bin(trace.value(i), least, width)]++;
        }
        return Optional.of(new StateLevels(
                state(trace, from, to, fullest(counts, 0, BINS / 2), least, width),
                state(trace, from, to, fullest(counts, BINS / 2, BINS), least, width)));
    }

    private static int bin(double value, double least, double width) {
        return Math.max(0, Math.min(BINS - 1, (int) ((value - least) / width)));
    }

    private static int fullest(int[] counts, int from, int to) {
        int best = from;
        for (int i = from; i < to; i++) {
            best = counts[i] > counts[best] ? i : best;
        }
        return best;
    }

    private static State state(Trace trace, int from, int to, int mode, double least, double width) {
        int n = 0;
        double sum = 0;
        double squares = 0;
        double zero = least + (mode + 0.5) * width;
        for (int i = from; i < to; i++) {
            if (Math.abs(bin(trace.value(i), least, width) - mode) <= 1) {
                double off = trace.value(i) - zero;
                n++;
                sum += off;
                squares += off * off;
            }
        }
        double mean = n == 0 ? 0 : sum / n;
        double variance = n < 2 ? 0 : Math.max(0, (squares - n * mean * mean) / (n - 1));
        return new State(zero + mean, Math.sqrt(variance), n);
    }
}
