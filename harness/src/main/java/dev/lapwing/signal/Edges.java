package dev.lapwing.signal;

import java.util.Arrays;

/** Levels of one two-state signal: the level at the start, then every change with its bench time. For one thread. */
public final class Edges {
    private final boolean initial;
    private final long fromUs;
    private long[] times = new long[16];
    private int size;

    /**
     * @param initial level known at {@code fromUs}
     * @param fromUs  bench time in µs from which the level is known
     */
    public Edges(boolean initial, long fromUs) {
        this.initial = initial;
        this.fromUs = fromUs;
    }

    /** Appends a change of level; a change to the level that it already has is dropped. */
    public void append(long timeUs, boolean level) {
        if (level == last()) {
            return;
        }
        if (size == times.length) {
            times = Arrays.copyOf(times, size * 2);
        }
        times[size++] = timeUs;
    }

    /** Number of changes. */
    public int size() {
        return size;
    }

    public long timeUs(int i) {
        return times[i];
    }

    /** The level from change {@code i} on. */
    public boolean level(int i) {
        return initial ^ (i % 2 == 0);
    }

    /** The newest level. */
    public boolean last() {
        return size == 0 ? initial : level(size - 1);
    }

    /** Bench time in µs from which the level is known. */
    public long fromUs() {
        return fromUs;
    }

    /** The level at that bench time, a change at that very instant included. */
    public boolean at(long timeUs) {
        int index = firstAfter(timeUs) - 1;
        return index < 0 ? initial : level(index);
    }

    /** Index of the first change after that time; {@link #size()} if there is none. */
    public int firstAfter(long timeUs) {
        int low = 0;
        int high = size;
        while (low < high) {
            int middle = (low + high) >>> 1;
            if (times[middle] <= timeUs) {
                low = middle + 1;
            } else {
                high = middle;
            }
        }
        return low;
    }
}
