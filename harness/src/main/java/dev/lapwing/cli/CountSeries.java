package dev.lapwing.cli;

import java.util.Arrays;

/** Counts of one point in the order in which they came. */
final class CountSeries {
    private int[] counts = new int[256];
    private int size;

    void add(int count) {
        if (size == counts.length) {
            counts = Arrays.copyOf(counts, 2 * size);
        }
        counts[size++] = count;
    }

    int size() {
        return size;
    }

    /** Mean count; of an empty series 0. */
    double mean() {
        return mean(0, size);
    }

    /** Standard deviation of a single count about the mean (n − 1); 0 for fewer than two. */
    double deviation() {
        double mean = mean();
        double square = 0;
        for (int i = 0; i < size; i++) {
            square += (counts[i] - mean) * (counts[i] - mean);
        }
        return size < 2 ? 0 : Math.sqrt(square / (size - 1));
    }

    /** How far the mean of the later half lies above that of the earlier half, in counts. */
    double drift() {
        return size < 4 ? 0 : mean(size / 2, size) - mean(0, size / 2);
    }

    private double mean(int from, int to) {
        double sum = 0;
        for (int i = from; i < to; i++) {
            sum += counts[i];
        }
        return to == from ? 0 : sum / (to - from);
    }
}
