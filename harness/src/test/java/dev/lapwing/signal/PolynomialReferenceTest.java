package dev.lapwing.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/**
 * The fit of a calibration held against certified values.
 *
 * <p>Source: NIST Statistical Reference Datasets, Linear Regression (public domain): Norris, Pontius, Wampler1,
 * Wampler2 and Wampler3, with their certified estimates, standard deviations and residual standard deviations, which
 * carry 15 digits. Data and certified values of the Wampler sets are from memory; their certified estimates are what
 * their data were made from, and Wampler3's residual is checked below by adding up its errors.
 */
class PolynomialReferenceTest {
    private static final double[][] NORRIS = {
        {0.2, 0.1}, {337.4, 338.8}, {118.2, 118.1}, {884.6, 888.0}, {10.1, 9.2}, {226.5, 228.1}, {666.3, 668.5},
        {996.3, 998.5}, {448.6, 449.1}, {777.0, 778.9}, {558.2, 559.2}, {0.4, 0.3}, {0.6, 0.1}, {775.5, 778.1},
        {666.9, 668.8}, {338.0, 339.3}, {447.5, 448.9}, {11.6, 10.8}, {556.0, 557.7}, {228.1, 228.3}, {995.8, 998.0},
        {887.6, 888.8}, {120.2, 119.6}, {0.3, 0.3}, {0.3, 0.6}, {556.8, 557.6}, {339.1, 339.3}, {887.2, 888.0},
        {999.0, 998.5}, {779.0, 778.9}, {11.1, 10.2}, {118.3, 117.6}, {229.2, 228.9}, {669.1, 668.4}, {448.9, 449.2},
        {0.5, 0.2}
    };
    /** Two runs of a load cell at 150000, 300000 … 3000000 pounds. */
    private static final double[][] PONTIUS = {
        {
            .11019, .21956, .32949, .43899, .54803, .65694, .76562, .87487, .98292, 1.09146, 1.20001, 1.30822, 1.41599,
            1.52399, 1.63194, 1.73947, 1.84646, 1.95392, 2.06128, 2.16844
        },
        {
            .11052, .22018, .32939, .43886, .54798, .65739, .76596, .87474, .98300, 1.09150, 1.20004, 1.30818, 1.41613,
            1.52408, 1.63159, 1.73965, 1.84696, 1.95445, 2.06177, 2.16829
        }
    };
    /** What Wampler3 adds to Wampler1, at x = 0 … 20. */
    private static final int[] WAMPLER_ERRORS = {
        759, -2048, 2048, -2048, 2523, -2048, 2048, -2048, 1838, -2048, 2048, -2048, 1838, -2048, 2048, -2048, 2523,
        -2048, 2048, -2048, 759
    };

    @Test
    void norrisIsFittedToElevenDigits() {
        double[] x =
                IntStream.range(0, NORRIS.length).mapToDouble(i -> NORRIS[i][0]).toArray();
        double[] y =
                IntStream.range(0, NORRIS.length).mapToDouble(i -> NORRIS[i][1]).toArray();
        Polynomial line = Polynomial.fit(x, y, 1);

        agree(line.coefficients(), List.of(-0.262323073774029, 1.00211681802045), 11);
        agree(line.standards(), List.of(0.232818234301152, 0.429796848199937E-03), 11);
        agree(line.residual(), 0.884796396144373, 11);
    }

    @Test
    void pontiusIsFittedToElevenDigits() {
        double[] x = IntStream.range(0, 40)
                .mapToDouble(i -> 150_000.0 * (i % 20 + 1))
                .toArray();
        double[] y =
                IntStream.range(0, 40).mapToDouble(i -> PONTIUS[i / 20][i % 20]).toArray();
        Polynomial curve = Polynomial.fit(x, y, 2);

        agree(curve.coefficients(), List.of(0.673565789473684E-03, 0.732059160401003E-06, -0.316081871345029E-14), 11);
        agree(curve.standards(), List.of(0.107938612033077E-03, 0.157817399981659E-09, 0.486652849992036E-16), 11);
        agree(curve.residual(), 0.205177424076185E-03, 11);
    }

    @Test
    void wamplersFifthDegreeIsFoundAgain() {
        agree(wampler(1, false).coefficients(), List.of(1.0, 1.0, 1.0, 1.0, 1.0, 1.0), 8);
        agree(wampler(0.1, false).coefficients(), List.of(1.0, 0.1, 0.01, 0.001, 1e-4, 1e-5), 12);
        Polynomial noisy = wampler(1, true);
        agree(noisy.coefficients(), List.of(1.0, 1.0, 1.0, 1.0, 1.0, 1.0), 8);
        agree(noisy.residual(), 2360.14502379268, 12);
        agree(
                noisy.residual(),
                Math.sqrt(IntStream.of(WAMPLER_ERRORS).mapToLong(e -> e * e).sum() / 15.0),
                12);
    }

    @Test
    void fewerDifferentValuesThanCoefficientsAreRefused() {
        double[] x = {0, 0, 1, 1, 0};
        assertThatThrownBy(() -> Polynomial.fit(x, x, 2)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> Polynomial.fit(new double[] {0, 1}, new double[] {0, 1}, 1))
                .isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void itsDoubtAndBendAreThoseOfItsCoefficients() {
        Polynomial line = Polynomial.fit(new double[] {0, 1, 2, 3}, new double[] {0, 1.1, 1.9, 3}, 1);
        agree(line.standardAt(0), line.standards().get(0), 12);
        Polynomial curve = Polynomial.fit(new double[] {0, 1, 2, 3}, new double[] {0, 1, 4, 9}, 2);
        agree(curve.bendAt(1.5), 2, 12);
        agree(curve.at(5), 25, 12);
    }

    /** y = 1 + bx + (bx)² … + (bx)⁵ at x = 0 … 20. */
    private static Polynomial wampler(double b, boolean errors) {
        double[] x = IntStream.range(0, 21).mapToDouble(i -> i).toArray();
        double[] y = new double[21];
        for (int i = 0; i < 21; i++) {
            double t = b == 1 ? i : i / 10.0;
            y[i] = 1 + t * (1 + t * (1 + t * (1 + t * (1 + t)))) + (errors ? WAMPLER_ERRORS[i] : 0);
        }
        return Polynomial.fit(x, y, 5);
    }

    private static void agree(List<Double> found, List<Double> certified, int digits) {
        assertThat(found).hasSameSizeAs(certified);
        for (int i = 0; i < found.size(); i++) {
            agree(found.get(i), certified.get(i), digits);
        }
    }

    /** NIST's measure: minus the decimal logarithm of the relative error. */
    private static void agree(double found, double certified, int digits) {
        double right = -Math.log10(Math.abs(found - certified) / Math.abs(certified));
        assertThat(right).as("%s, certified %s", found, certified).isGreaterThanOrEqualTo(digits);
    }
}
