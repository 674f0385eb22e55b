package dev.lapwing.signal;

/**
 * Sampled values of one signal, oldest first. Times are bench microseconds and strictly rise; where the bench lost
 * samples the step is wider. A trace may grow while a run is on, what is there never changes.
 */
public interface Trace {
    int size();

    /**
     * Bench time of sample {@code i}, in µs: of the event at the terminal, the channel's fixed delay already taken
     * off.
     */
    long timeUs(int i);

    /** Calibrated value of sample {@code i}, in the base unit of the signal's dimension. */
    double value(int i);

    /** Times and values of {@code count} samples from {@code from} on, into the arrays from place {@code at} on. */
    default void read(int from, int count, long[] timesUs, double[] values, int at) {
        for (int i = 0; i < count; i++) {
            timesUs[at + i] = timeUs(from + i);
            values[at + i] = value(from + i);
        }
    }

    /** Index of the first sample at or after that time; {@link #size()} if there is none. */
    default int firstAtOrAfter(long timeUs) {
        int low = 0;
        int high = size();
        while (low < high) {
            int middle = (low + high) >>> 1;
            if (timeUs(middle) < timeUs) {
                low = middle + 1;
            } else {
                high = middle;
            }
        }
        return low;
    }

    /** Longest step between neighbours of samples {@code from} to before {@code to}, in µs; 0 if fewer than 2. */
    default long longestStepUs(int from, int to) {
        long longest = 0;
        for (int i = from + 1; i < to; i++) {
            longest = Math.max(longest, timeUs(i) - timeUs(i - 1));
        }
        return longest;
    }

    /**
     * What samples {@code from} to before {@code to} lie between. May be wider than need be, where it cannot be told
     * without looking at each.
     */
    default Bounds bounds(int from, int to) {
        Bounds bounds = Bounds.NONE;
        for (int i = from; i < to; i++) {
            bounds = bounds.and(new Bounds(value(i), value(i)));
        }
        return bounds;
    }

    /** Most equal samples in a row among samples {@code from} to before {@code to}; as many or more. */
    default int longestRow(int from, int to) {
        return to - from;
    }
}
