package dev.lapwing.signal;

import java.util.Arrays;

/** Times of the samples that may still be looked at, by number from 0 on. For one thread. */
final class SampleTimes {
    private long[] times = new long[64];
    private long forgotten;
    private long count;
    private long firstUs;

    void add(long timeUs) {
        if (count == 0) {
            firstUs = timeUs;
        } else if (timeUs <= timeUs(count - 1)) {
            throw new IllegalArgumentException("samples must rise in time: " + timeUs + " us after " + lastUs());
        }
        if (count - forgotten == times.length) {
            long[] more = Arrays.copyOf(times, 2 * times.length);
            for (long i = forgotten; i < count; i++) {
                more[(int) (i & (more.length - 1))] = times[(int) (i & (times.length - 1))];
            }
            times = more;
        }
        times[(int) (count & (times.length - 1))] = timeUs;
        count++;
    }

    long firstUs() {
        return firstUs;
    }

    long count() {
        return count;
    }

    long lastUs() {
        return timeUs(count - 1);
    }

    long timeUs(long number) {
        return times[(int) (number & (times.length - 1))];
    }

    /** True if that sample has come and was at or before that time. */
    boolean cameBy(long number, long timeUs) {
        return number < count && timeUs(number) <= timeUs;
    }

    /** How many times there is room for. */
    int room() {
        return times.length;
    }

    /** Keeps that sample and what comes after it, and the last in any case. */
    void forgetBefore(long number) {
        forgotten = Math.max(forgotten, Math.min(number, count - 1));
    }
}
