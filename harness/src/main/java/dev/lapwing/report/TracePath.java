package dev.lapwing.report;

import dev.lapwing.signal.Trace;

/**
 * A trace as the path of a line. Where there are more samples than the paper has columns, each column keeps its minimum and
 * its maximum, so that nothing that the trace did is lost to the eye; otherwise every sample is a point. Where samples are
 * missing the line is broken.
 */
final class TracePath {
    private final Trace trace;
    private final Axis time;
    private final Axis level;
    /** Steps that a place is rounded to, in tenths of a pixel. */
    private final int grain;

    private final StringBuilder path = new StringBuilder();
    private boolean broken = true;
    private long x;
    private long y;
    /** End of a level stretch that is not written yet. */
    private long pendingX;

    private TracePath(Trace trace, Axis time, Axis level, int grain) {
        this.trace = trace;
        this.time = time;
        this.level = level;
        this.grain = grain;
    }

    /**
     * @param time  bench time in µs to places
     * @param level base unit to places
     * @param grain in tenths of a pixel; a coarser one makes a shorter path
     * @return the {@code d} of a path; empty if there are no samples there
     */
    static String of(Trace trace, Axis time, Axis level, int grain) {
        return new TracePath(trace, time, level, grain).path();
    }

    private String path() {
        int first = trace.firstAtOrAfter((long) Math.ceil(time.low()));
        int end = trace.firstAtOrAfter((long) Math.floor(time.high()) + 1);
        int columns = (int) Math.abs(time.to() - time.from());
        if (end - first <= 2 * columns) {
            exact(first, end);
        } else {
            decimated(first, end, columns);
        }
        finishLevel();
        return path.toString();
    }

    private void exact(int first, int end) {
        long step = step(first, end);
        for (int i = first; i < end; i++) {
            if (i > first && trace.timeUs(i) - trace.timeUs(i - 1) > 3 * step) {
                breakLine();
            }
            point(i);
        }
    }

    private void decimated(int first, int end, int columns) {
        double width = (time.high() - time.low()) / columns;
        int i = first;
        for (int column = 0; column < columns && i < end; column++) {
            double until = time.low() + (column + 1) * width;
            int least = i;
            int greatest = i;
            int start = i;
            while (i < end && (trace.timeUs(i) < until || column == columns - 1)) {
                least = trace.value(i) < trace.value(least) ? i : least;
                greatest = trace.value(i) > trace.value(greatest) ? i : greatest;
                i++;
            }
            if (i == start) {
                breakLine();
                continue;
            }
            point(Math.min(least, greatest));
            if (least != greatest) {
                point(Math.max(least, greatest));
            }
        }
    }

    private long step(int first, int end) {
        return end - first < 2 ? Long.MAX_VALUE / 4 : trace.timeUs(first + 1) - trace.timeUs(first);
    }

    private void breakLine() {
        finishLevel();
        broken = true;
    }

    private void point(int i) {
        long toX = Math.round(time.at(trace.timeUs(i)) * 10);
        long toY = Math.round(level.within(trace.value(i)) * 10 / grain) * grain;
        if (broken) {
            path.append('M').append(Markup.tenths(toX)).append(' ').append(Markup.tenths(toY));
            broken = false;
            x = toX;
            y = toY;
            pendingX = toX;
        } else if (toY == y) {
            pendingX = Math.max(pendingX, toX);
        } else {
            finishLevel();
            path.append('l').append(Markup.tenths(toX - x));
            String down = Markup.tenths(toY - y);
            path.append(down.startsWith("-") ? "" : " ").append(down);
            x = toX;
            y = toY;
            pendingX = toX;
        }
    }

    private void finishLevel() {
        if (!broken && pendingX > x) {
            path.append('h').append(Markup.tenths(pendingX - x));
            x = pendingX;
        }
    }
}
