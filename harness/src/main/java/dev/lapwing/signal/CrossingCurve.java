package dev.lapwing.signal;

import dev.lapwing.signal.MovedLevel.Point;
import java.util.ArrayList;
import java.util.List;

/**
 * Crossing times over a range of levels, worked out once and then read off quickly. Points lie closer where the time
 * bends or jumps.
 */
public final class CrossingCurve {
    private static final int CELLS = 16;
    /** A cell is halved so often at the most. */
    private static final int HALVINGS = 9;
    /** So many levels are looked for at the most: each goes through the trace once. */
    private static final int POINTS_MOST = 600;

    private final MovedLevel moved;
    private final double tolerance;
    private final List<Point> points = new ArrayList<>();

    /**
     * @param reach     how far the level may be moved to either side, 0 or more; beyond, the time is that at the end
     * @param tolerance by how much a time between points may be off, in s
     */
    public CrossingCurve(MovedLevel moved, double reach, double tolerance) {
        this.moved = moved;
        this.tolerance = tolerance;
        Point before = moved.at(-reach);
        points.add(before);
        for (int cell = 1; cell <= CELLS; cell++) {
            Point next = moved.at(reach * (2.0 * cell / CELLS - 1));
            between(before, next, HALVINGS);
            points.add(next);
            before = next;
        }
    }

    private void between(Point low, Point high, int halvings) {
        boolean nowhere = !low.told() && low.seconds() == high.seconds();
        if (halvings == 0 || nowhere || points.size() > POINTS_MOST) {
            return;
        }
        Point middle = moved.at((low.shift() + high.shift()) / 2);
        double off = Math.abs(middle.seconds() - (low.seconds() + high.seconds()) / 2);
        // Not a number where one end has no time.
        boolean bent = !(off <= Math.max(tolerance, middle.fromNoise()));
        if (bent) {
            between(low, middle, halvings - 1);
        }
        points.add(middle);
        if (bent) {
            between(middle, high, halvings - 1);
        }
    }

    /**
     * The time with the level moved by {@code shift}.
     *
     * @param noise     error from noise, in its standard uncertainty
     * @param curvature error from the shape between samples, in its bound
     * @return s from the start of the window; infinite as in {@link Point#seconds}
     */
    public double seconds(double shift, double noise, double curvature) {
        int low = 0;
        int high = points.size() - 1;
        while (high - low > 1) {
            int middle = (low + high) >>> 1;
            if (points.get(middle).shift() <= shift) {
                low = middle;
            } else {
                high = middle;
            }
        }
        Point from = points.get(low);
        Point to = points.get(high);
        double width = to.shift() - from.shift();
        double share = width == 0 ? 0 : Math.max(0, Math.min(1, (shift - from.shift()) / width));
        if (!from.told() || !to.told()) {
            Point nearer = share < 0.5 ? from : to;
            return nearer.seconds() + noise * nearer.fromNoise() + curvature * nearer.curvature();
        }
        return from.seconds()
                + share * (to.seconds() - from.seconds())
                + noise * (from.fromNoise() + share * (to.fromNoise() - from.fromNoise()))
                + curvature * (from.curvature() + share * (to.curvature() - from.curvature()));
    }
}
