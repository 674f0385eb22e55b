package dev.lapwing.signal;

/**
 * What samples lie between, in the trace's unit.
 *
 * @param least    none is below it
 * @param greatest none is above it
 */
public record Bounds(double least, double greatest) {
    /** Of no sample. */
    public static final Bounds NONE = new Bounds(Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY);
    /** Of samples of which nothing is known. */
    public static final Bounds OPEN = new Bounds(Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY);

    /** Of these samples and those. */
    public Bounds and(Bounds other) {
        return new Bounds(Math.min(least, other.least), Math.max(greatest, other.greatest));
    }

    /** Whether all lie between the two values, neither reached. */
    public boolean within(double low, double high) {
        return least > low && greatest < high;
    }
}
