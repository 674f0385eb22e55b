package dev.lapwing.measure;

import dev.lapwing.bench.Calibration;
import dev.lapwing.signal.Trace;
import java.util.Arrays;

/**
 * Raw counts of one point, calibrated as they are read: 4 bytes a sample, since a run holds millions. Times are kept as
 * stretches of equal steps.
 */
final class CountTrace implements Trace {
    private final Calibration calibration;
    private int[] counts = new int[1024];
    private int size;
    private Stretch[] stretches = new Stretch[4];
    private int stretchCount;
    private int lastUsed;

    /** Samples from index {@code from} on, the first at {@code t0Us}, one every {@code everyUs}. */
    private record Stretch(int from, long t0Us, long everyUs) {
        long timeUs(int i) {
            return t0Us + (i - from) * everyUs;
        }
    }

    CountTrace(Calibration calibration) {
        this.calibration = calibration;
    }

    /** Appends a sample that belongs to a grid of that interval; one that is not after the last is dropped. */
    void append(long timeUs, long everyUs, int count) {
        if (size > 0 && timeUs <= timeUs(size - 1)) {
            return;
        }
        if (stretchCount == 0 || !continues(stretches[stretchCount - 1], timeUs, everyUs)) {
            if (stretchCount == stretches.length) {
                stretches = Arrays.copyOf(stretches, stretchCount * 2);
            }
            stretches[stretchCount++] = new Stretch(size, timeUs, everyUs);
        }
        if (size == counts.length) {
            counts = Arrays.copyOf(counts, size * 2);
        }
        counts[size++] = count;
    }

    private boolean continues(Stretch stretch, long timeUs, long everyUs) {
        return stretch.everyUs == everyUs && stretch.timeUs(size) == timeUs;
    }

    @Override
    public int size() {
        return size;
    }

    @Override
    public long timeUs(int i) {
        return stretch(i).timeUs(i);
    }

    @Override
    public double value(int i) {
        return calibration.value(counts[i]);
    }

    private Stretch stretch(int i) {
        if (lastUsed < stretchCount && holds(lastUsed, i)) {
            return stretches[lastUsed];
        }
        int low = 0;
        int high = stretchCount - 1;
        while (low < high) {
            int middle = (low + high + 1) >>> 1;
            if (stretches[middle].from <= i) {
                low = middle;
            } else {
                high = middle - 1;
            }
        }
        lastUsed = low;
        return stretches[low];
    }

    private boolean holds(int stretch, int i) {
        return stretches[stretch].from <= i && (stretch + 1 == stretchCount || i < stretches[stretch + 1].from);
    }
}
