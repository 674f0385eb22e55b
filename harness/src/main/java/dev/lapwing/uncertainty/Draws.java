package dev.lapwing.uncertainty;

import java.util.Arrays;

/** Values that a model gave, in rising order; some may be infinite, where the quantity never came, or came before. */
final class Draws {
    private final double[] sorted;
    private final int first;
    private final int end;

    /** Takes the array and sorts it. */
    Draws(double[] values) {
        Arrays.sort(values);
        sorted = values;
        int low = 0;
        while (low < values.length && values[low] == Double.NEGATIVE_INFINITY) {
            low++;
        }
        int high = values.length;
        while (high > low && values[high - 1] == Double.POSITIVE_INFINITY) {
            high--;
        }
        first = low;
        end = high;
    }

    int size() {
        return sorted.length;
    }

    /** Share of positive infinity. */
    double never() {
        return (sorted.length - end) / (double) sorted.length;
    }

    /** Share of negative infinity. */
    double already() {
        return first / (double) sorted.length;
    }

    /** Of the finite ones; 0 if there is none. */
    double mean() {
        double sum = 0;
        for (int i = first; i < end; i++) {
            sum += sorted[i];
        }
        return end == first ? 0 : sum / (end - first);
    }

    /** Of the finite ones; 0 if there are fewer than two. */
    double standard() {
        double mean = mean();
        double squares = 0;
        for (int i = first; i < end; i++) {
            squares += (sorted[i] - mean) * (sorted[i] - mean);
        }
        return end - first < 2 ? 0 : Math.sqrt(squares / (end - first - 1));
    }

    /** The value that a share of them stays below, in a straight line between draws (JCGM 101:2008, 7.5 and 7.7). */
    double quantile(double share) {
        double place = share * sorted.length - 0.5;
        int below = (int) Math.floor(place);
        if (below < 0) {
            return sorted[0];
        }
        if (below + 1 >= sorted.length) {
            return sorted[sorted.length - 1];
        }
        double low = sorted[below];
        double high = sorted[below + 1];
        return Double.isInfinite(low) || Double.isInfinite(high)
                ? (place - below < 0.5 ? low : high)
                : low + (place - below) * (high - low);
    }
}
