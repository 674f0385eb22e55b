package dev.lapwing.simulated;

import java.util.Arrays;

/** The last stretch of several true values over true time, straight lines between what was noted. */
final class TruthHistory {
    private final int channels;
    private final long keepNs;
    private long[] times = new long[16];
    private double[] values;
    /** Position of the newest entry; entries lie in a ring whose length is a power of two. */
    private int newest = -1;

    private int size;

    /** @param keepNs how far back a value may be asked for */
    TruthHistory(int channels, long keepNs) {
        this.channels = channels;
        this.keepNs = keepNs;
        values = new double[times.length * channels];
    }

    /** Notes values at a time not before the last one; of two at one time the later is what follows. */
    void note(long ns, double[] now) {
        if (size == times.length && ns - times[ring(newest + 2)] < keepNs) {
            grow();
        }
        newest = ring(newest + 1);
        size = Math.min(size + 1, times.length);
        times[newest] = ns;
        System.arraycopy(now, 0, values, newest * channels, channels);
    }

    /** A value at a time up to the newest; before the oldest it is the oldest's. */
    double at(int channel, long ns) {
        int later = newest;
        for (int back = 0; back < size; back++) {
            int at = ring(newest - back);
            if (times[at] <= ns) {
                return between(at, later, channel, ns);
            }
            later = at;
        }
        return values[later * channels + channel];
    }

    private double between(int earlier, int later, int channel, long ns) {
        double left = values[earlier * channels + channel];
        long span = times[later] - times[earlier];
        return span <= 0
                ? left
                : left + (values[later * channels + channel] - left) * ((ns - times[earlier]) / (double) span);
    }

    private int ring(int position) {
        return position & (times.length - 1);
    }

    private void grow() {
        int length = times.length;
        long[] longerTimes = Arrays.copyOf(times, 2 * length);
        double[] longerValues = Arrays.copyOf(values, 2 * length * channels);
        for (int i = 0; i < length; i++) {
            int from = ring(newest + 1 + i);
            longerTimes[i] = times[from];
            System.arraycopy(values, from * channels, longerValues, i * channels, channels);
        }
        times = longerTimes;
        values = longerValues;
        newest = length - 1;
    }
}
