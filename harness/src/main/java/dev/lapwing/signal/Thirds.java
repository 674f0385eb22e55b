package dev.lapwing.signal;

import java.util.function.DoubleSupplier;

/**
 * Slopes of a signal over a width at every place: mean over the last third of the width minus mean over the first,
 * over two thirds of the width, which is how far their middles are apart (the line of thirds: M. S. Bartlett, Fitting
 * a Straight Line When Both Variables Are Subject to Error, Biometrics 5, 1949; from memory). Means are taken of
 * straight lines between samples, so that every place has the same width: were they of samples, the greatest of many
 * slopes would be where fewest of them lie.
 *
 * @param integral of the signal
 * @param third    of the width, in s
 */
record Thirds(Integral integral, double third) {
    /** Places within a third of the width. */
    private static final int STRIDES = 32;

    private static final int NARROWINGS = 30;
    private static final double GOLDEN = (Math.sqrt(5) - 1) / 2;

    /** Of the width that begins at that time. */
    double at(double from) {
        return (mean(from + 2 * third) - mean(from)) / (2 * third);
    }

    /** Over the third that begins at that time. */
    double mean(double from) {
        return (integral.upTo(from + third) - integral.upTo(from)) / third;
    }

    double stride() {
        return third / STRIDES;
    }

    /** At so many places a stride apart, times a sign. */
    double[] slopes(double start, int places, int sign) {
        double[] sums = new double[places + 3 * STRIDES];
        for (int i = 0; i < sums.length; i++) {
            sums[i] = integral.upTo(start + i * stride());
        }
        return differences(sums, sign / (2 * third * third));
    }

    private static double[] differences(double[] sums, double factor) {
        double[] slopes = new double[sums.length - 3 * STRIDES];
        for (int i = 0; i < slopes.length; i++) {
            double last = sums[i + 3 * STRIDES] - sums[i + 2 * STRIDES];
            double first = sums[i + STRIDES] - sums[i];
            slopes[i] = factor * (last - first);
        }
        return slopes;
    }

    /**
     * Noise of {@link #slopes} with a standard deviation of 1, where that of samples so many s apart is independent.
     */
    double[] noise(int places, double every, DoubleSupplier normal) {
        double[] sums = new double[places + 3 * STRIDES];
        double step = Math.max(1, every / stride());
        double left = normal.getAsDouble();
        double right = normal.getAsDouble();
        double sum = 0;
        double at = 0;
        for (int i = 0; i < sums.length; i++) {
            while (i - at > step) {
                sum += step * (left + right) / 2;
                left = right;
                right = normal.getAsDouble();
                at += step;
            }
            double since = i - at;
            sums[i] = sum + since * (left + (right - left) * since / (2 * step));
        }
        return differences(sums, 1 / Math.sqrt(2 * STRIDES * step));
    }

    /** The place between two of the greatest slope times a sign, by golden section. */
    double steepest(double from, double to, int sign) {
        double low = from;
        double high = to;
        for (int i = 0; i < NARROWINGS; i++) {
            double left = high - GOLDEN * (high - low);
            double right = low + GOLDEN * (high - low);
            if (sign * at(left) >= sign * at(right)) {
                high = right;
            } else {
                low = left;
            }
        }
        return (low + high) / 2;
    }
}
