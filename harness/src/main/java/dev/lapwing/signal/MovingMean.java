package dev.lapwing.signal;

/**
 * Mean of the samples of the last while, so that one sample's noise is not taken for an event. The mean of a straight
 * line is the line's value at the mean of the times, so a steady slope is neither delayed nor advanced; something
 * shorter than the width is made smaller.
 */
public final class MovingMean {
    private static final int AHEAD = 512;

    private final Trace trace;
    private final long widthUs;
    private final long fromUs;
    private int first;
    private int next;
    /** Samples from index {@code base} to before {@code end}, read ahead. */
    private long[] times = new long[AHEAD];

    private double[] values = new double[AHEAD];
    private int base;
    private int end;
    private double sum;
    private double compensation;
    private double timeSumUs;
    private long timeZeroUs;

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
        while (next == first && reads(next) && times[next - base] < fromUs) {
            first++;
            next++;
        }
        if (!reads(next) || times[next - base] > untilUs) {
            return false;
        }
        long newest = times[next - base];
        if (next == first) {
            timeZeroUs = newest;
        }
        add(values[next - base], newest - timeZeroUs);
        next++;
        while (newest - times[first - base] >= widthUs && first < next - 1) {
            add(-values[first - base], -(times[first - base] - timeZeroUs));
            first++;
        }
        return true;
    }

    /** Whether that sample is there, read ahead with those behind it. */
    private boolean reads(int index) {
        return index < end || readsAhead(index);
    }

    private boolean readsAhead(int index) {
        if (index >= trace.size()) {
            return false;
        }
        int kept = end - first;
        int room = 2 * kept > times.length ? 2 * times.length : times.length;
        long[] before = times;
        double[] valuesBefore = values;
        if (room > times.length) {
            times = new long[room];
            values = new double[room];
        }
        System.arraycopy(before, first - base, times, 0, kept);
        System.arraycopy(valuesBefore, first - base, values, 0, kept);
        base = first;
        int more = Math.min(room - kept, trace.size() - end);
        trace.read(end, more, times, values, kept);
        end += more;
        return true;
    }

    /** Compensated, so that a sum that runs over millions of samples keeps its digits (Neumaier 1974). */
    private void add(double value, double timeUs) {
        double total = sum + value;
        compensation += Math.abs(sum) >= Math.abs(value) ? (sum - total) + value : (value - total) + sum;
        sum = total;
        timeSumUs += timeUs;
    }

    /** Number of samples in the present mean. */
    public int samples() {
        return next - first;
    }

    public double value() {
        return (sum + compensation) / samples();
    }

    /** Bench time that the present mean stands for, in µs. */
    public long timeUs() {
        return timeZeroUs + Math.round(timeSumUs / samples());
    }

    /** Bench time of the newest sample in it, in µs. */
    public long newestUs() {
        return times[next - 1 - base];
    }
}
