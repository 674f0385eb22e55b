package dev.lapwing.signal;

import java.util.Arrays;

/**
 * The integral of straight lines between samples, from which the mean over any stretch follows whatever samples lie
 * in it. Beyond its ends a trace stays at its first and last sample.
 */
final class Integral {
    private final double[] seconds;
    private final double[] values;
    /** Integral up to each sample, of values less the first. */
    private final double[] sums;

    /**
     * @param trace  at least one sample
     * @param zeroUs bench time of the zero of the times
     */
    Integral(Trace trace, long zeroUs) {
        int n = trace.size();
        seconds = new double[n];
        values = new double[n];
        sums = new double[n];
        for (int i = 0; i < n; i++) {
            seconds[i] = (trace.timeUs(i) - zeroUs) * 1e-6;
            values[i] = trace.value(i) - trace.value(0);
            if (i > 0) {
                sums[i] = sums[i - 1] + (values[i] + values[i - 1]) / 2 * (seconds[i] - seconds[i - 1]);
            }
        }
    }

    /** Up to a time in s, of the value less that of the first sample. */
    double upTo(double time) {
        int found = Arrays.binarySearch(seconds, time);
        int right = found >= 0 ? found : -found - 1;
        if (right == 0) {
            return 0;
        }
        int left = Math.min(right, seconds.length) - 1;
        double since = time - seconds[left];
        double slope = right == seconds.length ? 0 : (values[right] - values[left]) / (seconds[right] - seconds[left]);
        return sums[left] + since * (values[left] + slope * since / 2);
    }
}
