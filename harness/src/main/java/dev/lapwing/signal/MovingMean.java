package dev.lapwing.signal;

/**
 * Mean of the samples of the last while, so that one sample's noise is not taken for an event. The mean of a straight
 * line is the line's value at the mean of the times, so a steady slope is neither delayed nor advanced; something
 * shorter than the width is made smaller.
 */
public final class MovingMean {
    private final Trace trace;
    private final long widthUs;
    private final long fromUs;
    private int first;
    private int next;
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
    }

    /** Takes one more sample, if there is one at or before that bench time. */
    public boolean advance(long untilUs) {
        while (next == first && next < trace.size() && trace.timeUs(next) < fromUs) {
            first++;
            next++;
        }
        if (next >= trace.size() || trace.timeUs(next) > untilUs) {
            return false;
        }
        long newest = trace.timeUs(next);
        if (next == first) {
            timeZeroUs = newest;
        }
        add(trace.value(next), newest - timeZeroUs);
        next++;
        while (newest - trace.timeUs(first) >= widthUs && first < next - 1) {
            add(-trace.value(first), -(trace.timeUs(first) - timeZeroUs));
            first++;
        }
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
        return trace.timeUs(next - 1);
    }
}
