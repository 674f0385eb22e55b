package dev.lapwing.plant;

import java.util.Arrays;

/**
 * A symmetric, positive definite system of equations whose coefficients stand near the diagonal, kept and solved
 * without allocating: the nodal equations of a resistive network.
 */
final class BandedSystem {
    /** Right-hand side before {@link #solve}, solution after it. */
    final double[] unknown;

    private final int band;
    private final int width;
    /** Row by row the coefficients from the diagonal leftwards. */
    private final double[] coefficient;

    /**
     * @param size number of unknowns
     * @param band how far from the diagonal a coefficient may stand
     */
    BandedSystem(int size, int band) {
        this.band = band;
        this.width = band + 1;
        unknown = new double[size];
        coefficient = new double[size * width];
    }

    void clear() {
        Arrays.fill(unknown, 0);
        Arrays.fill(coefficient, 0);
    }

    /** A conductance in siemens from a node to a source of a voltage against the common reference. */
    void toReference(int node, double siemens, double volts) {
        coefficient[node * width] += siemens;
        unknown[node] += siemens * volts;
    }

    /** A conductance in siemens between two nodes. */
    void between(int node, int other, double siemens) {
        int high = Math.max(node, other);
        int low = Math.min(node, other);
        coefficient[node * width] += siemens;
        coefficient[other * width] += siemens;
        coefficient[high * width + (high - low)] -= siemens;
    }

    // L·D·Lᵀ factorisation within the band, then substitution forwards and back.
    void solve() {
        int size = unknown.length;
        for (int row = 0; row < size; row++) {
            int first = Math.max(0, row - band);
            for (int column = first; column < row; column++) {
                double sum = at(row, column);
                for (int i = Math.max(first, column - band); i < column; i++) {
                    sum -= at(row, i) * at(column, i) * at(i, i);
                }
                coefficient[row * width + (row - column)] = sum / at(column, column);
            }
            double pivot = at(row, row);
            double known = unknown[row];
            for (int i = first; i < row; i++) {
                double l = at(row, i);
                pivot -= l * l * at(i, i);
                known -= l * unknown[i];
            }
            coefficient[row * width] = pivot;
            unknown[row] = known;
        }
        for (int row = size - 1; row >= 0; row--) {
            double value = unknown[row] / at(row, row);
            for (int below = row + 1; below <= Math.min(size - 1, row + band); below++) {
                value -= at(below, row) * unknown[below];
            }
            unknown[row] = value;
        }
    }

    private double at(int row, int column) {
        return coefficient[row * width + (row - column)];
    }
}
