package dev.lapwing.signal;

import java.util.ArrayList;
import java.util.List;

/**
 * Polynomial fitted by least squares: Householder's reflections (Golub and Van Loan, Matrix Computations, 5.2.1, cited
 * from memory) on x moved and scaled to −1 … 1, where powers differ enough from each other.
 */
public final class Polynomial {
    private final double centre;
    private final double half;
    /** Of the powers of scaled x. */
    private final double[] scaled;
    /** Upper triangle of the decomposed design matrix. */
    private final double[][] upper;

    private final double residual;

    private Polynomial(double centre, double half, double[] scaled, double[][] upper, double residual) {
        this.centre = centre;
        this.half = half;
        this.scaled = scaled;
        this.upper = upper;
        this.residual = residual;
    }

    /**
     * Fits y over x.
     *
     * @param degree at least 1
     * @throws IllegalArgumentException if there are no more samples than coefficients, or too few different x
     */
    public static Polynomial fit(double[] x, double[] y, int degree) {
        int columns = degree + 1;
        if (degree < 1 || x.length != y.length || x.length <= columns) {
            throw new IllegalArgumentException(x.length + " samples bear no polynomial of degree " + degree);
        }
        double least = x[0];
        double most = x[0];
        for (double each : x) {
            least = Math.min(least, each);
            most = Math.max(most, each);
        }
        double centre = least + (most - least) / 2;
        double half = (most - least) / 2;
        double[][] rows = new double[x.length][];
        for (int i = 0; i < x.length; i++) {
            rows[i] = powers((x[i] - centre) / half, columns);
        }
        double[] right = y.clone();
        reflect(rows, right, columns);
        double[] scaled = backwards(rows, right, columns);
        double square = 0;
        for (int i = columns; i < x.length; i++) {
            square += right[i] * right[i];
        }
        return new Polynomial(centre, half, scaled, rows, Math.sqrt(square / (x.length - columns)));
    }

    /** Turns the rows into an upper triangle, and the right side with them. */
    private static void reflect(double[][] rows, double[] right, int columns) {
        for (int k = 0; k < columns; k++) {
            double square = 0;
            for (int i = k; i < rows.length; i++) {
                square += rows[i][k] * rows[i][k];
            }
            double length = rows[k][k] > 0 ? -Math.sqrt(square) : Math.sqrt(square);
            double[] mirror = new double[rows.length];
            for (int i = k; i < rows.length; i++) {
                mirror[i] = rows[i][k];
            }
            mirror[k] -= length;
            double norm = 2 * (square - length * rows[k][k]);
            if (!(norm > 1e-20)) {
                throw new IllegalArgumentException("too few different values for a polynomial of that degree");
            }
            for (int j = k; j < columns; j++) {
                double dot = 0;
                for (int i = k; i < rows.length; i++) {
                    dot += mirror[i] * rows[i][j];
                }
                for (int i = k; i < rows.length; i++) {
                    rows[i][j] -= 2 * dot / norm * mirror[i];
                }
            }
            double dot = 0;
            for (int i = k; i < rows.length; i++) {
                dot += mirror[i] * right[i];
            }
            for (int i = k; i < rows.length; i++) {
                right[i] -= 2 * dot / norm * mirror[i];
            }
        }
    }

    private static double[] backwards(double[][] upper, double[] right, int columns) {
        double[] solved = new double[columns];
        for (int i = columns - 1; i >= 0; i--) {
            double sum = right[i];
            for (int j = i + 1; j < columns; j++) {
                sum -= upper[i][j] * solved[j];
            }
            if (Math.abs(upper[i][i]) < 1e-9) {
                throw new IllegalArgumentException("too few different values for a polynomial of that degree");
            }
            solved[i] = sum / upper[i][i];
        }
        return solved;
    }

    private static double[] powers(double t, int columns) {
        double[] powers = new double[columns];
        powers[0] = 1;
        for (int j = 1; j < columns; j++) {
            powers[j] = powers[j - 1] * t;
        }
        return powers;
    }

    /** Standard deviation of the samples about it, with as many degrees of freedom as are left. */
    public double residual() {
        return residual;
    }

    /** Its value at x. */
    public double at(double x) {
        double t = (x - centre) / half;
        double value = 0;
        for (int j = scaled.length - 1; j >= 0; j--) {
            value = value * t + scaled[j];
        }
        return value;
    }

    /** Its second derivative at x. */
    public double bendAt(double x) {
        double t = (x - centre) / half;
        double value = 0;
        for (int j = scaled.length - 1; j >= 2; j--) {
            value = value * t + j * (j - 1) * scaled[j];
        }
        return value / (half * half);
    }

    /** Standard uncertainty of {@link #at}, were residuals independent (as GUM H.3 for a line). */
    public double standardAt(double x) {
        return residual * length(powers((x - centre) / half, scaled.length));
    }

    /** Standard uncertainty of what it has more at one x than at another, were residuals independent. */
    public double standardBetween(double one, double other) {
        double[] row = powers((one - centre) / half, scaled.length);
        double[] less = powers((other - centre) / half, scaled.length);
        for (int j = 0; j < row.length; j++) {
            row[j] -= less[j];
        }
        return residual * length(row);
    }

    /** Length of row·R⁻¹. */
    private double length(double[] row) {
        double[] solved = new double[row.length];
        double square = 0;
        for (int i = 0; i < row.length; i++) {
            double sum = row[i];
            for (int j = 0; j < i; j++) {
                sum -= solved[j] * upper[j][i];
            }
            solved[i] = sum / upper[i][i];
            square += solved[i] * solved[i];
        }
        return Math.sqrt(square);
    }

    /** Coefficients of 1, x, x² and so on. */
    public List<Double> coefficients() {
        List<Double> coefficients = new ArrayList<>();
        for (double[] row : unscaling()) {
            double sum = 0;
            for (int j = scaled.length - 1; j >= 0; j--) {
                sum += row[j] * scaled[j];
            }
            coefficients.add(sum);
        }
        return coefficients;
    }

    /** Standard deviation of each coefficient, were residuals independent. */
    public List<Double> standards() {
        List<Double> standards = new ArrayList<>();
        for (double[] row : unscaling()) {
            standards.add(residual * length(row));
        }
        return standards;
    }

    /** Row i says what each power of scaled x has of xⁱ: ((x − c)/h)ʲ by the binomial theorem. */
    private double[][] unscaling() {
        int columns = scaled.length;
        double[][] rows = new double[columns][columns];
        rows[0][0] = 1;
        for (int j = 1; j < columns; j++) {
            for (int i = 0; i <= j; i++) {
                rows[i][j] = ((i == 0 ? 0 : rows[i - 1][j - 1]) - centre * rows[i][j - 1]) / half;
            }
        }
        return rows;
    }
}
