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
}
