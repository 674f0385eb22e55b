package dev.lapwing.measure;

import dev.lapwing.bench.Calibration;
import dev.lapwing.signal.Bounds;
import dev.lapwing.signal.Trace;
import java.util.Arrays;
import java.util.Optional;

/**
 * Raw counts of one point, calibrated as they are read from wherever they are. Times are kept as stretches of equal
 * steps.
 */
final class CountTrace implements Trace {
    private static final int RAW = 256;

    private final Calibration calibration;
    private Optional<Counts> counts = Optional.empty();
    private int size;
    private Stretch[] stretches = new Stretch[4];
    private int stretchCount;
    private int lastUsed;
    private final int[] raw = new int[RAW];

    /** Samples from index {@code from} on, the first at {@code t0Us} and in that row, one every {@code everyUs}. */
    private record Stretch(int from, long t0Us, long everyUs, int row) {
        long timeUs(int i) {
            return t0Us + (i - from) * everyUs;
        }

        int row(int i) {
            return row + (i - from);
        }
    }

    CountTrace(Calibration calibration) {
        this.calibration = calibration;
    }

    /**
     * Appends samples of one grid; those that are not after the last are dropped.
     *
     * @param rows how many
     * @param row  number of the first of them in its stream
     * @param from where the counts are
     */
    void append(long t0Us, long everyUs, int rows, int row, Counts from) {
        counts = Optional.of(from);
        long lastUs = size == 0 ? Long.MIN_VALUE : timeUs(size - 1);
        int dropped = 0;
        while (dropped < rows && t0Us + dropped * everyUs <= lastUs) {
            dropped++;
        }
        if (dropped == rows) {
            return;
        }
        long firstUs = t0Us + dropped * everyUs;
        if (stretchCount == 0 || !continues(stretches[stretchCount - 1], firstUs, everyUs, row + dropped)) {
            if (stretchCount == stretches.length) {
                stretches = Arrays.copyOf(stretches, stretchCount * 2);
            }
            stretches[stretchCount++] = new Stretch(size, firstUs, everyUs, row + dropped);
        }
        size += rows - dropped;
    }

    private boolean continues(Stretch stretch, long timeUs, long everyUs, int row) {
        return stretch.everyUs == everyUs && stretch.timeUs(size) == timeUs && stretch.row(size) == row;
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
        return calibration.value(counts.orElseThrow().at(stretch(i).row(i)));
    }

    @Override
    public void read(int from, int count, long[] timesUs, double[] values, int at) {
        int done = 0;
        while (done < count) {
            Stretch now = stretch(from + done);
            int part = Math.min(Math.min(count - done, stretchEnd() - from - done), raw.length);
            counts.orElseThrow().read(now.row(from + done), part, raw);
            calibration.values(raw, part, values, at + done);
            long firstUs = now.timeUs(from + done);
            for (int i = 0; i < part; i++) {
                timesUs[at + done + i] = firstUs + i * now.everyUs;
            }
            done += part;
        }
    }

    /** Between two stretches there may be a longer step; within one there is none. */
    @Override
    public long longestStepUs(int from, int to) {
        long longest = 0;
        for (int i = from; i < to; ) {
            Stretch now = stretch(i);
            int end = Math.min(to, stretchEnd());
            longest = Math.max(longest, end > i + 1 ? now.everyUs : 0);
            if (end < to) {
                longest = Math.max(longest, timeUs(end) - now.timeUs(end - 1));
            }
            i = end;
        }
        return longest;
    }

    @Override
    public Bounds bounds(int from, int to) {
        if (!calibration.monotonous()) {
            return Bounds.OPEN;
        }
        Bounds bounds = Bounds.NONE;
        for (int i = from; i < to; ) {
            Stretch now = stretch(i);
            int end = Math.min(to, stretchEnd());
            Counts.Extent extent = counts.orElseThrow().extent(now.row(i), now.row(end));
            double one = calibration.value(extent.least());
            double other = calibration.value(extent.greatest());
            bounds = bounds.and(new Bounds(Math.min(one, other), Math.max(one, other)));
            i = end;
        }
        return bounds;
    }

    /** Rows of two stretches may be one. */
    @Override
    public int longestRow(int from, int to) {
        int longest = 0;
        for (int i = from; i < to; ) {
            Stretch now = stretch(i);
            int end = Math.min(to, stretchEnd());
            longest += counts.orElseThrow().extent(now.row(i), now.row(end)).row();
            i = end;
        }
        return longest;
    }

    /** Index after the last sample of the stretch that was used last. */
    private int stretchEnd() {
        return lastUsed + 1 < stretchCount ? stretches[lastUsed + 1].from : size;
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
