package dev.lapwing.measure;

/** Raw counts of one point, by the number of their row in its stream, from 0 on. For one thread. */
public interface Counts {
    int at(int row);

    /** Those of {@code count} rows from {@code row} on, into the first places of an array. */
    void read(int row, int count, int[] into);

    /** What is known of rows {@code from} to before {@code to} without looking at each. */
    Extent extent(int from, int to);

    /**
     * Of some counts.
     *
     * @param least    none is below it
     * @param greatest none is above it
     * @param row      no more of them are equal in a row
     */
    record Extent(int least, int greatest, int row) {
        public static final Extent NONE = new Extent(Integer.MAX_VALUE, Integer.MIN_VALUE, 0);

        /** Of these and those. A row must not go on from these to those. */
        public Extent and(Extent other) {
            return new Extent(
                    Math.min(least, other.least), Math.max(greatest, other.greatest), Math.max(row, other.row));
        }
    }
}
