package dev.lapwing.signal;

import static dev.lapwing.signal.CertifiedDigits.agree;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * The fit of a calibration held against certified values.
 *
 * <p>Source: NIST Statistical Reference Datasets, Linear Regression (public domain): Norris, Pontius, Filip and
 * Wampler1 to Wampler5, with their certified estimates, standard deviations and residual standard deviations, which
 * carry 15 digits; read in public test suites of other libraries. How many of the digits are asked for here is how many
 * double arithmetic can carry: a set whose powers of x, moved and scaled, have a condition of 10ⁿ loses n of its 16.
 *
 * <p>Left out: NoInt1 and NoInt2, lines through the origin, and Longley, a plane over six variables. Nothing here fits
 * either.
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

    private static final List<Double> FILIP = List.of(
            -1467.48961422980,
            -2772.17959193342,
            -2316.37108160893,
            -1127.97394098372,
            -354.478233703349,
            -75.1242017393757,
            -10.8753180355343,
            -1.06221498588947,
            -0.670191154593408E-01,
            -0.246781078275479E-02,
            -0.402962525080404E-04);
    private static final List<Double> FILIP_STANDARDS = List.of(
            298.084530995537,
            559.779865474950,
            466.477572127796,
            227.204274477751,
            71.6478660875927,
            15.2897178747400,
            2.23691159816033,
            0.221624321934227,
            0.142363763154724E-01,
            0.535617408889821E-03,
            0.896632837373868E-05);

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

    /** Wampler1 and Wampler2, of which every point lies on its curve. */
    @Test
    void wamplersFifthDegreeIsFoundAgain() {
        agree(wampler(1, 0).coefficients(), List.of(1.0, 1.0, 1.0, 1.0, 1.0, 1.0), 8);
        agree(wampler(0.1, 0).coefficients(), List.of(1.0, 0.1, 0.01, 0.001, 1e-4, 1e-5), 12);
    }

    /**
     * Wampler3, 4 and 5: the same errors once, a hundred and ten thousand times. What they do to the coefficients is
     * certified as well; the coefficients lose a digit for each that the errors are greater than they.
     */
    @ParameterizedTest
    @CsvSource({"1, 8", "100, 6", "10000, 4"})
    void wamplersErrorsAreToldFromTheCurve(int times, int digits) {
        Polynomial noisy = wampler(1, times);
        List<Double> standards = Stream.of(
                        2152.32624678170,
                        2363.55173469681,
                        779.343524331583,
                        101.475507550350,
                        5.64566512170752,
                        0.112324854679312)
                .map(one -> times * one)
                .toList();

        agree(noisy.coefficients(), List.of(1.0, 1.0, 1.0, 1.0, 1.0, 1.0), digits);
        agree(noisy.standards(), standards, 11);
        agree(noisy.residual(), times * 2360.14502379268, 12);
    }

    /** Filip, the tenth degree: raw powers of its x have a condition of 10¹⁵, moved and scaled ones one of 10¹⁰. */
    @Test
    void filipsTenthDegreeIsFoundToFiveDigits() {
        List<String> lines =
                StatisticsReferenceTest.lines("nist-filip.csv").stream().skip(1).toList();
        double[] x = lines.stream()
                .mapToDouble(line -> Double.parseDouble(line.split(",")[0]))
                .toArray();
        double[] y = lines.stream()
                .mapToDouble(line -> Double.parseDouble(line.split(",")[1]))
                .toArray();
        Polynomial curve = Polynomial.fit(x, y, 10);

        agree(curve.coefficients(), FILIP, 5);
        agree(curve.standards(), FILIP_STANDARDS, 5);
        agree(curve.residual(), 0.334801051324544E-02, 9);
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
    private static Polynomial wampler(double b, int errors) {
        double[] x = IntStream.range(0, 21).mapToDouble(i -> i).toArray();
        double[] y = new double[21];
        for (int i = 0; i < 21; i++) {
            double t = b == 1 ? i : i / 10.0;
            y[i] = 1 + t * (1 + t * (1 + t * (1 + t * (1 + t)))) + errors * WAMPLER_ERRORS[i];
        }
        return Polynomial.fit(x, y, 5);
    }
}
