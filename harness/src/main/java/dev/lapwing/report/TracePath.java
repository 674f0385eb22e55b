package dev.lapwing.report;

/** Chosen samples as the path of a line, in as few letters as it can be. */
final class TracePath {
    private final Axis time;
    private final Axis level;
    private final int grain;
    private final StringBuilder path = new StringBuilder();
    private boolean broken = true;
    private long x;
    private long y;
    /** End of a level stretch that is not written yet. */
    private long pendingX;

    private TracePath(Axis time, Axis level, int grain) {
        this.time = time;
        this.level = level;
        this.grain = grain;
    }

    /**
     * @param time  bench time in µs to places
     * @param level base unit to places
     * @param grain to which levels are rounded, in tenths of a pixel; a coarser one makes a shorter path
     * @return the {@code d} of a path; empty if there are no samples
     */
    static String of(ShownSamples samples, Axis time, Axis level, int grain) {
        TracePath line = new TracePath(time, level, grain);
        for (int i = 0; i < samples.size(); i++) {
            line.point(samples, i);
        }
        line.finishLevel();
        return line.path.toString();
    }

    private void point(ShownSamples samples, int i) {
        if (samples.startsAnew(i)) {
            finishLevel();
            broken = true;
        }
        long toX = Math.round(time.at(samples.timeUs(i)) * 10);
        long toY = Math.round(level.within(samples.value(i)) * 10 / grain) * grain;
        if (broken) {
            path.append('M').append(Markup.tenths(toX)).append(' ').append(Markup.tenths(toY));
            broken = false;
        } else if (toY == y) {
            pendingX = Math.max(pendingX, toX);
            return;
        } else {
            finishLevel();
            String down = Markup.tenths(toY - y);
            path.append('l').append(Markup.tenths(toX - x));
            path.append(down.startsWith("-") ? "" : " ").append(down);
        }
        x = toX;
        y = toY;
        pendingX = toX;
    }

    private void finishLevel() {
        if (!broken && pendingX > x) {
            path.append('h').append(Markup.tenths(pendingX - x));
            x = pendingX;
        }
    }
}
