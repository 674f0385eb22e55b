package dev.lapwing.signal;

import java.util.Arrays;

/**
 * A queue of values, each with its witness: the atom and the time that decide it, packed into one number so that a
 * trace of millions of samples makes no objects. For one thread.
 */
final class Witnessed {
    private static final int TIME_BITS = 46;
    private static final long TIME_MASK = (1L << TIME_BITS) - 1;
    private static final long TURNED = 1L << 62;

    private double[] values = new double[16];
    private long[] witnesses = new long[16];
    private int head;
    private int size;

    /** @param sinceFirstUs time since the first sample, in µs, below 2 years */
    static long witness(int atom, long sinceFirstUs) {
        return (long) atom << TIME_BITS | sinceFirstUs;
    }

    /** The same witness of a value whose sign was changed. */
    static long turned(long witness) {
        return witness ^ TURNED;
    }

    static boolean isTurned(long witness) {
        return (witness & TURNED) != 0;
    }

    static int atom(long witness) {
        return (int) ((witness & ~TURNED) >>> TIME_BITS);
    }

    static long sinceFirstUs(long witness) {
        return witness & TIME_MASK;
    }

    int size() {
        return size;
    }

    void add(double value, long witness) {
        if (size == values.length) {
            grow();
        }
        int at = (head + size) & (values.length - 1);
        values[at] = value;
        witnesses[at] = witness;
        size++;
    }

    /** The oldest. */
    double value() {
        return values[head];
    }

    /** The witness of the oldest. */
    long witness() {
        return witnesses[head];
    }

    /** The {@code i}-th oldest, from 0. */
    double value(int i) {
        return values[(head + i) & (values.length - 1)];
    }

    long witness(int i) {
        return witnesses[(head + i) & (values.length - 1)];
    }

    void drop() {
        head = (head + 1) & (values.length - 1);
        size--;
    }

    private void grow() {
        double[] moreValues = Arrays.copyOf(values, 2 * size);
        long[] moreWitnesses = Arrays.copyOf(witnesses, 2 * size);
        for (int i = 0; i < size; i++) {
            moreValues[i] = value(i);
            moreWitnesses[i] = witness(i);
        }
        values = moreValues;
        witnesses = moreWitnesses;
        head = 0;
    }
}
