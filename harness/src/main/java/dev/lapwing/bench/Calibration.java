package dev.lapwing.bench;

import dev.lapwing.uncertainty.Along;
import java.time.LocalDate;
import java.util.List;
import java.util.Objects;
import java.util.OptionalDouble;

/**
 * How counts of a point become values, and how well that is known. Values in the base unit of the signal's dimension.
 *
 * @param points      at least two pairs, counts rising; straight lines between and beyond them
 * @param standard    standard uncertainty (k = 1) of the calibration
 * @param drift       standard uncertainty (k = 1) of the drift since
 * @param span        standard uncertainty (k = 1) of the difference between both ends of the range, calibration and
 *                    drift together; empty where nobody says, as in records from before it could be said
 * @param noise       standard deviation of one sample, as found at calibration
 * @param date        ISO 8601 date of calibration
 * @param due         ISO 8601 date until which it holds, that day included; empty where none is stated, as of what is
 *                    simulated and does not age
 * @param certificate certificate or reference it rests on
 */
public record Calibration(
        List<Pair> points,
        double standard,
        double drift,
        OptionalDouble span,
        double noise,
        String date,
        String due,
        String certificate) {

    /** That many counts mean that value. */
    public record Pair(double counts, double value) {}

    public Calibration {
        points = List.copyOf(points);
        span = Objects.requireNonNullElse(span, OptionalDouble.empty());
        if (points.size() < 2) {
            throw new IllegalArgumentException("a calibration needs at least two points");
        }
    }

    /** One that does not say what is known of its span. */
    public Calibration(
            List<Pair> points,
            double standard,
            double drift,
            double noise,
            String date,
            String due,
            String certificate) {
        this(points, standard, drift, OptionalDouble.empty(), noise, date, due, certificate);
    }

    /**
     * The most that a span can be off by where every value is as good as stated, as a standard uncertainty: both ends
     * off by all of it, and opposite (JCGM 100:2008, 5.2.2, with r = −1).
     */
    public static double greatestSpan(double standard, double drift) {
        return 2 * StrictMath.hypot(standard, drift);
    }

    /** How far its error goes with the value; the most that it may where nobody says. */
    public Along along() {
        double one = points.get(0).value();
        double other = points.get(points.size() - 1).value();
        return Along.of(
                Math.min(one, other),
                Math.max(one, other),
                span.orElse(greatestSpan(standard, drift)),
                StrictMath.hypot(standard, drift));
    }

    /**
     * Whether it holds on that day: the one rule of the list that is gone through before arming and of the judge. One
     * that states no date until which it holds does. On a day before it was made the clock that told the day is wrong,
     * and nobody knows whether it held.
     */
    public boolean holdsOn(LocalDate day) {
        return due.isEmpty() || !LocalDate.parse(due).isBefore(day) && !madeAfter(day);
    }

    /** Whether it was made later than that day. */
    public boolean madeAfter(LocalDate day) {
        return LocalDate.parse(date).isAfter(day);
    }

    /** Value of a count. */
    public double value(double counts) {
        int i = 1;
        while (i < points.size() - 1 && counts > points.get(i).counts()) {
            i++;
        }
        Pair left = points.get(i - 1);
        Pair right = points.get(i);
        return left.value()
                + (counts - left.counts()) * (right.value() - left.value()) / (right.counts() - left.counts());
    }

    /** Values of the first {@code size} counts, into the array from place {@code at} on. */
    public void values(int[] counts, int size, double[] into, int at) {
        if (points.size() > 2) {
            for (int i = 0; i < size; i++) {
                into[at + i] = value(counts[i]);
            }
            return;
        }
        double zero = points.get(0).counts();
        double base = points.get(0).value();
        double rise = points.get(1).value() - base;
        double run = points.get(1).counts() - zero;
        for (int i = 0; i < size; i++) {
            into[at + i] = base + (counts[i] - zero) * rise / run;
        }
    }

    /** Count, not rounded, that a value would give. */
    public double counts(double value) {
        int i = 1;
        while (i < points.size() - 1 && value > points.get(i).value()) {
            i++;
        }
        Pair left = points.get(i - 1);
        Pair right = points.get(i);
        return left.counts()
                + (value - left.value()) * (right.counts() - left.counts()) / (right.value() - left.value());
    }

    /** Whether values only rise, or only fall, with the counts. */
    public boolean monotonous() {
        boolean rises = false;
        boolean falls = false;
        for (int i = 1; i < points.size(); i++) {
            rises |= points.get(i).value() > points.get(i - 1).value();
            falls |= points.get(i).value() < points.get(i - 1).value();
        }
        return !(rises && falls);
    }

    /** Width of one count in the middle of the range. */
    public double resolution() {
        Pair first = points.get(0);
        Pair last = points.get(points.size() - 1);
        return Math.abs((last.value() - first.value()) / (last.counts() - first.counts()));
    }
}
