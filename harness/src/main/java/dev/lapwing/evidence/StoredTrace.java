package dev.lapwing.evidence;

import dev.lapwing.bench.Calibration;
import dev.lapwing.signal.Trace;
import java.util.Arrays;

/**
 * A trace over stored counts: four bytes a sample, its time from the stream's grid, its value by the calibration. A gap
 * in the samples starts a new stretch of the grid.
 */
final class StoredTrace implements Trace {
    private final Calibration calibration;
    private final long everyUs;
    private final long filterUs;
    private int[] counts = new int[1024];
    private int size;
    /** First sample of each stretch, and its time. */
    private int[] firsts = new int[4];

    private long[] starts = new long[4];
    private int stretches;
    private long nextUs = Long.MIN_VALUE;

    StoredTrace(Calibration calibration, long everyUs, long filterUs) {
        this.calibration = calibration;
        this.everyUs = everyUs;
        this.filterUs = filterUs;
    }

    void append(long stampUs, int count) {
        long timeUs = stampUs - filterUs;
        if (timeUs != nextUs) {
            startStretch(timeUs);
        }
        if (size == counts.length) {
            counts = Arrays.copyOf(counts, size * 2);
        }
        counts[size++] = count;
        nextUs = timeUs + everyUs;
    }

    private void startStretch(long timeUs) {
        if (size > 0 && timeUs < nextUs) {
            throw new IllegalArgumentException("samples must rise in time: " + timeUs + " us before " + nextUs);
        }
        if (stretches == firsts.length) {
            firsts = Arrays.copyOf(firsts, stretches * 2);
            starts = Arrays.copyOf(starts, stretches * 2);
        }
        firsts[stretches] = size;
        starts[stretches] = timeUs;
        stretches++;
    }

    @Override
    public int size() {
        return size;
    }

    @Override
    public long timeUs(int i) {
        int stretch = stretches - 1;
        if (firsts[stretch] > i) {
            int found = Arrays.binarySearch(firsts, 0, stretches, i);
            stretch = found >= 0 ? found : -found - 2;
        }
        return starts[stretch] + (i - firsts[stretch]) * everyUs;
    }

    @Override
    public double value(int i) {
        return calibration.value(counts[i]);
    }
}
