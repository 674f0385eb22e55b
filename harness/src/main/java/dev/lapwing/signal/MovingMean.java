package dev.lapwing.signal;

/**
 * Mean of the samples of the last while, so that one sample's noise is not taken for an event. The mean of a straight
 * line is the line's value at the mean of the times, so a steady slope is neither delayed nor advanced; something
 * shorter than the width is made smaller.
 */
public final class MovingMean {
    /** So many samples are read, and their means made, at once. */
    private static final int AHEAD = 256;
    /** Sums begin anew with each block of the trace, so that a mean is the same whatever was passed over before it. */
    static final int BLOCK = 1024;

    private final Trace trace;
    private final long widthUs;
    private final long fromUs;

    /** Samples from index {@code base} to before {@code end} of the trace. */
    private long[] times = new long[AHEAD];

    private double[] values = new double[AHEAD];
    private int base;
    private int end;

    /** Indices of the oldest sample in the newest mean that was made, and of the first of which none was made. */
    private int first;

    private int next;
    private double sum;
    private double compensation;
    private double timeSumUs;
    private long timeZeroUs;

    /** Means that were made, by their newest sample. */
    private final double[] means = new double[AHEAD];

    private final double[] timeSumsUs = new double[AHEAD];
    private final long[] newestUs = new long[AHEAD];
    private final int[] samples = new int[AHEAD];
    private int made;
    private int present = -1;

    /**
     * @param trace   to read; may grow
     * @param widthUs a mean covers samples less than this apart; at least one sample
     * @param fromUs  bench time of the first sample to use
     */
    public MovingMean(Trace trace, long widthUs, long fromUs) {
        this.trace = trace;
        this.widthUs = widthUs;
        this.fromUs = fromUs;
        this.first = trace.firstAtOrAfter(fromUs);
        this.next = first;
        this.base = first;
        this.end = first;
    }

    /** Takes one more sample, if there is one at or before that bench time. */
    public boolean advance(long untilUs) {
        if (present + 1 == made && !goOn() || newestUs[present + 1] > untilUs) {
            return false;
        }
        present++;
        return true;
    }

    /** Takes a run of samples, all at or before that bench time; how many, 0 if there are none. */
    int advanceRun(long untilUs) {
        if (!advance(untilUs)) {
            return 0;
        }
        int from = present;
        while (present + 1 < made && newestUs[present + 1] <= untilUs) {
            present++;
        }
        return present - from + 1;
    }

    /**
     * Passes over samples in whole blocks, all at or before that bench time, whose means lie between the two values and
     * hold no fewer samples than the present one; how many. Nothing is passed over before all means that were made were
     * taken.
     */
    int pass(double least, double greatest, long untilUs) {
        int from = next;
        while (present + 1 == made && made > 0 && next % BLOCK == 0 && passes(least, greatest, untilUs)) {
            next += BLOCK;
            first = Math.max(first, trace.firstAtOrAfter(trace.timeUs(next - 1) - widthUs + 1));
        }
        if (next > from) {
            base = first;
            end = first;
            while (end < next) {
                readOn(next - end);
            }
            begin(first - base, next - base);
            record(0, trace.timeUs(next - 1), next - first);
            made = 1;
            present = 0;
        }
        return next - from;
    }

    private boolean passes(double least, double greatest, long untilUs) {
        int to = next + BLOCK;
        return to <= trace.size()
                && trace.timeUs(to - 1) <= untilUs
                && (samples() - 1) * trace.longestStepUs(first, to) < widthUs
                && trace.bounds(first, to).within(least, greatest);
    }

    /** Reads on and makes further means; false if there are no more samples. */
    private boolean goOn() {
        if (end >= trace.size()) {
            return false;
        }
        // One place is the present mean's; a block is read to its end.
        readOn(Math.min(AHEAD - 1, BLOCK - end % BLOCK));
        while (next == first && next < end && times[next - base] < fromUs) {
            first++;
            next++;
        }
        if (next == end) {
            return goOn();
        }
        if (next == first) {
            timeZeroUs = times[next - base];
        }
        // Of the present mean a caller may still ask.
        int kept = present < 0 ? 0 : 1;
        if (kept == 1) {
            keep(present);
        }
        make(kept);
        present = kept - 1;
        return true;
    }

    private void keep(int index) {
        means[0] = means[index];
        timeSumsUs[0] = timeSumsUs[index];
        newestUs[0] = newestUs[index];
        samples[0] = samples[index];
    }

    /** Reads that many samples at most, behind those that are still needed. */
    private void readOn(int most) {
        int kept = end - first;
        long[] before = times;
        double[] valuesBefore = values;
        if (2 * kept > times.length) {
            times = new long[2 * times.length];
            values = new double[2 * values.length];
        }
        System.arraycopy(before, first - base, times, 0, kept);
        System.arraycopy(valuesBefore, first - base, values, 0, kept);
        base = first;
        int more = Math.min(Math.min(times.length - kept, most), trace.size() - end);
        trace.read(end, more, times, values, kept);
        end += more;
    }

    /** Makes the means of all samples that were read. */
    private void make(int place) {
        int oldest = first - base;
        made = place;
        for (int i = next - base; i < end - base; i++) {
            if ((base + i) % BLOCK == 0) {
                begin(oldest, i);
            }
            long newest = times[i];
            add(values[i]);
            timeSumUs += newest - timeZeroUs;
            while (newest - times[oldest] >= widthUs && oldest < i) {
                add(-values[oldest]);
                timeSumUs -= times[oldest] - timeZeroUs;
                oldest++;
            }
            record(made, newest, i + 1 - oldest);
            made++;
        }
        first = base + oldest;
        next = end;
    }

    /** Sums up anew the samples at those places. */
    private void begin(int from, int to) {
        sum = 0;
        compensation = 0;
        timeSumUs = 0;
        for (int i = from; i < to; i++) {
            add(values[i]);
            timeSumUs += times[i] - timeZeroUs;
        }
    }

    /** Compensated, so that a sum keeps its digits (Neumaier 1974). */
    private void add(double value) {
        double before = sum;
        sum = before + value;
        compensation += Math.abs(before) >= Math.abs(value) ? (before - sum) + value : (value - sum) + before;
    }

    private void record(int place, long newest, int count) {
        samples[place] = count;
        means[place] = (sum + compensation) / count;
        timeSumsUs[place] = timeSumUs;
        newestUs[place] = newest;
    }

    /** Number of samples in the present mean. */
    public int samples() {
        return samples(0);
    }

    public double value() {
        return value(0);
    }

    /** Bench time that the present mean stands for, in µs. */
    public long timeUs() {
        return timeUs(0);
    }

    /** Bench time of the newest sample in it, in µs. */
    public long newestUs() {
        return newestUs(0);
    }

    /** As {@link #samples()}, of a mean of the run that was taken last: of that so many before the present one. */
    int samples(int ago) {
        return samples[present - ago];
    }

    double value(int ago) {
        return means[present - ago];
    }

    long timeUs(int ago) {
        return timeZeroUs + Math.round(timeSumsUs[present - ago] / samples[present - ago]);
    }

    long newestUs(int ago) {
        return newestUs[present - ago];
    }
}
