package dev.lapwing.simulated;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.Point;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** The output points: what they put out now, and the ramps that they are on. */
final class OutputPoints {
    private final List<Point> points = new ArrayList<>();
    private final Map<String, Integer> positions = new HashMap<>();
    private final int[] now;
    private final int[] from;
    private final int[] to;
    private final long[] fromNs;
    /** Length of the ramp that the point is on; 0 where it stands still. */
    private final long[] overNs;

    private int ramps;
    private boolean changed = true;

    OutputPoints(List<Point> all) {
        for (Point point : all) {
            if (point.kind().output()) {
                positions.put(point.name(), points.size());
                points.add(point);
            }
        }
        now = new int[points.size()];
        from = new int[points.size()];
        to = new int[points.size()];
        fromNs = new long[points.size()];
        overNs = new long[points.size()];
        safe();
    }

    /** Number of the output point of that name. */
    int position(String point) throws BenchFailure {
        Integer position = positions.get(point);
        if (position == null) {
            throw new BenchFailure("unknown-point: the bench has no output '" + point + "'");
        }
        return position;
    }

    boolean isOutput(String point) {
        return positions.containsKey(point);
    }

    /** Number of an output point that is known to be there. */
    int known(String point) {
        return positions.get(point);
    }

    /** Refuses a count that the point cannot put out. */
    void requireInRange(int position, int counts) throws BenchFailure {
        Point point = points.get(position);
        if (counts < point.min() || counts > point.max()) {
            throw new BenchFailure("out-of-range: output '" + point.name() + "' takes " + point.min() + " to "
                    + point.max() + " counts, not " + counts);
        }
    }

    Point point(int position) {
        return points.get(position);
    }

    int counts(int position) {
        return now[position];
    }

    /** Drives a point from now on; over a time only where it is analogue. */
    void drive(int position, int counts, long overNanos, long nowNs) {
        stop(position);
        changed = true;
        if (overNanos == 0 || points.get(position).kind().digital()) {
            now[position] = counts;
            return;
        }
        from[position] = now[position];
        to[position] = counts;
        fromNs[position] = nowNs;
        overNs[position] = overNanos;
        ramps++;
    }

    /** Moves what is on a ramp to where it is at a true time. */
    void move(long nowNs) {
        for (int i = 0; ramps > 0 && i < now.length; i++) {
            if (overNs[i] > 0) {
                changed = true;
                long gone = nowNs - fromNs[i];
                if (gone >= overNs[i]) {
                    now[i] = to[i];
                    stop(i);
                } else {
                    now[i] = (int) Math.round(from[i] + (to[i] - from[i]) * (gone / (double) overNs[i]));
                }
            }
        }
    }

    private void stop(int position) {
        if (overNs[position] > 0) {
            overNs[position] = 0;
            ramps--;
        }
    }

    /** All points to their safe values, at once. */
    void safe() {
        for (int i = 0; i < now.length; i++) {
            stop(i);
            now[i] = points.get(i).safe();
        }
        changed = true;
    }

    boolean allSafe() {
        for (int i = 0; i < now.length; i++) {
            if (now[i] != points.get(i).safe() || overNs[i] > 0) {
                return false;
            }
        }
        return true;
    }

    /** Whether anything changed since this was last asked. */
    boolean takeChanged() {
        boolean was = changed;
        changed = false;
        return was;
    }
}
