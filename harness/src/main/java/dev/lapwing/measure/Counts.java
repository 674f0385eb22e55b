package dev.lapwing.measure;

/** Raw counts of one point, by the number of their row in its stream, from 0 on. For one thread. */
public interface Counts {
    int at(int row);

    /** Those of {@code count} rows from {@code row} on, into the first places of an array. */
    void read(int row, int count, int[] into);

    /** No count of rows {@code from} to before {@code to} is below it; the least of them or less. */
    int least(int from, int to);

    /** No count of rows {@code from} to before {@code to} is above it; the greatest of them or more. */
    int greatest(int from, int to);
}
