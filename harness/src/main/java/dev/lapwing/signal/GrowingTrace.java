package dev.lapwing.signal;

import java.util.Arrays;

/** A trace in memory that grows at its end. For one thread. */
public final class GrowingTrace implements Trace {
    private long[] times;
    private double[] values;
    private int size;

    public GrowingTrace() {
        this(1024);
    }

    public GrowingTrace(int room) {
        times = new long[Math.max(16, room)];
        values = new double[Math.max(16, room)];
    }

    /** Appends a sample; its time must be after the last one. */
    public void append(long timeUs, double value) {
        if (size > 0 && timeUs <= times[size - 1]) {
            throw new IllegalArgumentException("samples must rise in time: " + timeUs + " us after " + times[size - 1]);
        }
        if (size == times.length) {
            times = Arrays.copyOf(times, size * 2);
            values = Arrays.copyOf(values, size * 2);
        }
        times[size] = timeUs;
        values[size] = value;
        size++;
    }

    @Override
    public int size() {
        return size;
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
