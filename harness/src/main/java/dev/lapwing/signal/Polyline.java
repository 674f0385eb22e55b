package dev.lapwing.signal;

import java.util.List;

/**
 * Straight lines between points.
 *
 * @param points at least two, their {@code x} rising
 */
public record Polyline(List<Point> points) {

    /** {@code y} at {@code x}, in whatever units both are. */
    public record Point(double x, double y) {}

    public Polyline {
        points = List.copyOf(points);
        if (points.size() < 2) {
            throw new IllegalArgumentException("a line needs at least two points, got " + points.size());
        }
        for (int i = 1; i < points.size(); i++) {
            if (!(points.get(i).x() > points.get(i - 1).x())) {
                throw new IllegalArgumentException(
                        "points must rise: " + points.get(i) + " after " + points.get(i - 1));
            }
        }
    }

    public double from() {
        return points.get(0).x();
    }

    public double to() {
        return points.get(points.size() - 1).x();
    }

    public boolean covers(double x) {
        return from() <= x && x <= to();
    }

    /** Beyond the first and the last point it stays at theirs. */
    public double at(double x) {
        if (x <= from()) {
            return points.get(0).y();
        }
        if (x >= to()) {
            return points.get(points.size() - 1).y();
        }
        Point left = points.get(before(x));
        return left.y() + slope(x) * (x - left.x());
    }

    /** How steep it is there, from there on where it bends; beyond its ends as at them. */
    public double slope(double x) {
        int i = before(x);
        Point left = points.get(i);
        Point right = points.get(i + 1);
        return (right.y() - left.y()) / (right.x() - left.x());
    }

    /** The point at which the line at {@code x} begins. */
    private int before(double x) {
        int low = 0;
        int high = points.size() - 2;
        while (low < high) {
            int middle = (low + high + 1) >>> 1;
            if (points.get(middle).x() <= x) {
                low = middle;
            } else {
                high = middle - 1;
            }
        }
        return low;
    }
}
