package dev.lapwing.report;

import dev.lapwing.signal.Trace;
import java.util.Arrays;

/**
 * The samples of a trace that a chart shows. Where there are more than two for each column of the paper, each column
 * keeps its least and its greatest, so that nothing that the trace did is lost to the eye; otherwise every sample is
 * kept. Where samples are missing the line starts anew.
 */
final class ShownSamples {
    private final Trace trace;
    private int[] kept = new int[256];
    private boolean[] anew = new boolean[256];
    private int size;
    private boolean gap = true;

    private ShownSamples(Trace trace) {
        this.trace = trace;
    }

    /** @param time bench time in µs to places in pixels */
    static ShownSamples of(Trace trace, Axis time) {
        ShownSamples shown = new ShownSamples(trace);
        int first = trace.firstAtOrAfter((long) Math.ceil(time.low()));
        int end = trace.firstAtOrAfter((long) Math.floor(time.high()) + 1);
        int columns = (int) Math.abs(time.to() - time.from());
        if (end - first <= 2 * columns) {
            shown.every(first, end);
        } else {
            shown.extremes(first, end, columns, time);
        }
        return shown;
    }

    int size() {
        return size;
    }

    long timeUs(int i) {
        return trace.timeUs(kept[i]);
    }

    double value(int i) {
        return trace.value(kept[i]);
    }

    /** True if samples are missing before this one. */
    boolean startsAnew(int i) {
        return anew[i];
    }

    private void every(int first, int end) {
        long step = end - first < 2 ? 0 : trace.timeUs(first + 1) - trace.timeUs(first);
        for (int i = first; i < end; i++) {
            gap = gap || trace.timeUs(i) - trace.timeUs(i - 1) > 3 * step;
            keep(i);
        }
    }

    private void extremes(int first, int end, int columns, Axis time) {
        double width = (time.high() - time.low()) / columns;
        int next = first;
        for (int column = 1; column <= columns; column++) {
            int until = column == columns ? end : trace.firstAtOrAfter((long) (time.low() + column * width));
            if (until <= next) {
                gap = true;
                continue;
            }
            extremes(next, until);
            next = until;
        }
    }

    private void extremes(int from, int until) {
        int least = from;
        int greatest = from;
        double low = trace.value(from);
        double high = low;
        for (int i = from + 1; i < until; i++) {
            double value = trace.value(i);
            if (value < low) {
                low = value;
                least = i;
            } else if (value > high) {
                high = value;
                greatest = i;
            }
        }
        keep(Math.min(least, greatest));
        if (least != greatest) {
            keep(Math.max(least, greatest));
        }
    }

    private void keep(int i) {
        if (size == kept.length) {
            kept = Arrays.copyOf(kept, size * 2);
            anew = Arrays.copyOf(anew, size * 2);
        }
        kept[size] = i;
        anew[size++] = gap;
        gap = false;
    }
}
