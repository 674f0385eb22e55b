package dev.lapwing.signal;

import java.util.Arrays;

/**
 * Samples of a window without spikes. A sample that lies further from the median about it than noise puts it is a spike
 * (the test named after F. R. Hampel; The Influence Curve and Its Role in Robust Estimation, JASA 69, 1974; from
 * memory), and a straight line between those beside it takes its place. A rise or fall without a turn is its own
 * running median, however it bends, and is left as it is.
 */
final class Despiked implements Trace {
    /** Further from the median than so many standard deviations is no noise. */
    private static final int SPIKE = 6;
    /** Nor is it worth taking out below this share of the way that the samples cover. Common practice, no source. */
    private static final double SMALL = 0.002;

    private final long[] times;
    private final double[] values;

    private Despiked(long[] times, double[] values) {
        this.times = times;
        this.values = values;
    }

    /**
     * @param half  the medians are of a sample and so many to either side; of fewer at the ends
     * @param noise standard deviation of one sample, the trace's unit
     */
    static Despiked of(Trace trace, Window window, int half, double noise) {
        int first = trace.firstAtOrAfter(window.fromUs());
        int n = Math.max(0, trace.firstAtOrAfter(window.toUs() + 1) - first);
        long[] times = new long[n];
        double[] values = new double[n];
        trace.read(first, n, times, values, 0);
        boolean[] spike = new boolean[n];
        double most = Math.max(SPIKE * noise, SMALL * range(values));
        Sorted about = new Sorted(n);
        int from = 0;
        int to = 0;
        for (int i = 0; i < n; i++) {
            int here = Math.min(half, Math.min(i, n - 1 - i));
            while (to <= i + here) {
                about.add(values[to++]);
            }
            while (from < i - here) {
                about.remove(values[from++]);
            }
            spike[i] = Math.abs(values[i] - about.middle()) > most;
        }
        bridge(times, values, spike);
        return new Despiked(times, values);
    }

    private static double range(double[] values) {
        double least = Double.POSITIVE_INFINITY;
        double greatest = Double.NEGATIVE_INFINITY;
        for (double value : values) {
            least = Math.min(least, value);
            greatest = Math.max(greatest, value);
        }
        return Math.max(0, greatest - least);
    }

    /** Straight lines over spikes; the first and the last sample are their own medians and no spikes. */
    private static void bridge(long[] times, double[] values, boolean[] spike) {
        int left = 0;
        for (int i = 1; i < values.length; i++) {
            if (!spike[i]) {
                for (int k = left + 1; k < i; k++) {
                    double share = (times[k] - times[left]) / (double) (times[i] - times[left]);
                    values[k] = values[left] + share * (values[i] - values[left]);
                }
                left = i;
            }
        }
    }

    /** Values in order. */
    private static final class Sorted {
        private final double[] values;
        private int size;

        Sorted(int capacity) {
            values = new double[capacity];
        }

        void add(double value) {
            int at = Arrays.binarySearch(values, 0, size, value);
            int to = at >= 0 ? at : -at - 1;
            System.arraycopy(values, to, values, to + 1, size - to);
            values[to] = value;
            size++;
        }

        void remove(double value) {
            int at = Arrays.binarySearch(values, 0, size, value);
            System.arraycopy(values, at + 1, values, at, size - at - 1);
            size--;
        }

        double middle() {
            return values[size / 2];
        }
    }

    @Override
    public int size() {
        return times.length;
    }

    @Override
    public long timeUs(int i) {
        return times[i];
    }

    @Override
    public double value(int i) {
        return values[i];
    }
}
