package dev.lapwing.signal;

import static dev.lapwing.signal.CertifiedDigits.agree;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.math.BigInteger;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Means, scatter and straight lines against published certified values. Source: NIST Statistical Reference Datasets and
 * JCGM 100:2008, annex H.3; the files under {@code outside/statistics} name them.
 */
class StatisticsReferenceTest {

    @ParameterizedTest
    @ValueSource(strings = {"mavro", "michelso", "lew", "lottery"})
    void meanScatterAndLikenessAreAsCertified(String set) {
        List<String> lines = lines("nist-" + set + ".csv");
        double mean = certified(lines, 0);
        double deviation = certified(lines, 1);
        double lag = certified(lines, 2);
        double[] values =
                lines.stream().skip(3).mapToDouble(Double::parseDouble).toArray();

        Average average = Average.of(values);

        agree(average.mean(), mean, 14);
        // Deviations of a thousandth of the mean and less lose as many digits of data that are no binary fractions.
        int lost = (int) Math.max(0, Math.ceil(Math.log10(Math.abs(mean) / deviation)));
        agree(average.deviation(), deviation, 14 - lost);
        double[] deviations = Arrays.stream(values).map(v -> v - average.mean()).toArray();
        agree(Autocorrelation.lag(deviations, 1), lag, 14 - lost);
    }

    /**
     * Set PiDigits, the first 5000 of pi: mean 4.5348, deviation 2.86733906028871, lag-1 -0.00355099287237972. In the
     * set (copy in montanaflynn/stats, commit 3b77151) the 957th of them is 3 where pi has 8, and it is certified so.
     */
    @Test
    void theDigitsOfPiAreAsCertified() {
        double[] values = digitsOfPi(5000);
        assertThat(values[956]).isEqualTo(8);
        values[956] = 3;
        Average average = Average.of(values);
        agree(average.mean(), 4.5348, 14);
        agree(average.deviation(), 2.86733906028871, 14);
        double[] deviations = Arrays.stream(values).map(v -> v - average.mean()).toArray();
        agree(Autocorrelation.lag(deviations, 1), -0.00355099287237972, 12);
    }

    /** By Machin's formula, pi = 16 arccot 5 - 4 arccot 239. */
    private static double[] digitsOfPi(int count) {
        BigInteger one = BigInteger.TEN.pow(count + 10);
        BigInteger pi = inverseCotangent(5, one)
                .multiply(BigInteger.valueOf(16))
                .subtract(inverseCotangent(239, one).multiply(BigInteger.valueOf(4)));
        return pi.toString().chars().limit(count).mapToDouble(c -> c - '0').toArray();
    }

    private static BigInteger inverseCotangent(int of, BigInteger one) {
        BigInteger square = BigInteger.valueOf((long) of * of);
        BigInteger power = one.divide(BigInteger.valueOf(of));
        BigInteger sum = power;
        for (int k = 3; power.signum() != 0; k += 2) {
            power = power.divide(square).negate();
            sum = sum.add(power.divide(BigInteger.valueOf(k)));
        }
        return sum;
    }

    /**
     * Sets NumAcc2, 3 and 4: base + 0.2, then 500 pairs of base + 0.1 and base + 0.3; mean base + 0.2, deviation 0.1.
     */
    @ParameterizedTest
    @CsvSource({"1, 1e-14", "1000000, 1e-8", "10000000, 1e-7"})
    void aSmallScatterAboutALargeMeanKeepsItsDigits(double base, double tolerance) {
        double[] values = new double[1001];
        values[0] = base + 0.2;
        for (int i = 1; i < values.length; i++) {
            values[i] = base + (i % 2 == 1 ? 0.1 : 0.3);
        }
        Average average = Average.of(values);
        assertThat(average.mean()).isCloseTo(base + 0.2, within(1e-15 * base + 1e-15));
        // Representing base + 0.1 in double arithmetic alone costs the deviation that much.
        assertThat(average.deviation()).isCloseTo(0.1, within(tolerance));
        double[] deviations = Arrays.stream(values).map(v -> v - average.mean()).toArray();
        assertThat(Autocorrelation.lag(deviations, 1)).isCloseTo(-0.999, within(10 * tolerance));
    }

    /** Set NumAcc1: 10000001, 10000003, 10000002; mean 10000002, deviation 1, lag-1 autocorrelation -0.5. */
    @Test
    void threeLargeNumbersAreExact() {
        Average average = Average.of(new double[] {10000001, 10000003, 10000002});
        assertThat(average.mean()).isEqualTo(10000002);
        assertThat(average.deviation()).isEqualTo(1);
        assertThat(Autocorrelation.lag(new double[] {-1, 1, 0}, 1)).isEqualTo(-0.5);
    }

    /**
     * Certified: B0 -0.262323073774029 (0.232818234301152), B1 1.00211681802045 (0.000429796848199937), s
     * 0.884796396144373.
     */
    @Test
    void theNorrisLineIsAsCertified() {
        StraightLine line = line("nist-norris.csv", 0);
        assertThat(line.at(0)).isCloseTo(-0.262323073774029, within(1e-11));
        assertThat(line.standardAt(0)).isCloseTo(0.232818234301152, within(1e-11));
        assertThat(line.slope()).isCloseTo(1.00211681802045, within(1e-13));
        assertThat(line.slopeStandard()).isCloseTo(0.429796848199937e-3, within(1e-14));
        assertThat(line.residual()).isCloseTo(0.884796396144373, within(1e-11));
    }

    /** Published: y1 -0.1712 (0.0029), y2 0.00218 (0.00067), s 0.0035; at 30 degrees -0.1494 with u 0.0041. */
    @Test
    void theGuideToUncertaintysThermometerLineIsAsPublished() {
        StraightLine line = line("gum-h3.csv", 20);
        assertThat(line.at(0)).isCloseTo(-0.1712, within(0.00005));
        assertThat(line.standardAt(0)).isCloseTo(0.0029, within(0.00005));
        assertThat(line.slope()).isCloseTo(0.00218, within(0.000005));
        assertThat(line.slopeStandard()).isCloseTo(0.00067, within(0.000005));
        assertThat(line.residual()).isCloseTo(0.0035, within(0.00005));
        assertThat(line.at(10)).isCloseTo(-0.1494, within(0.00005));
        assertThat(line.standardAt(10)).isCloseTo(0.0041, within(0.00005));
        // Published: r(y1, y2) = -0.930, from u²(y1 + x y2) = u²(y1) + x² u²(y2) + 2 x r u(y1) u(y2) at x = 10.
        double one = line.standardAt(0);
        double two = 10 * line.slopeStandard();
        double both = line.standardAt(10);
        assertThat((both * both - one * one - two * two) / (2 * one * two)).isCloseTo(-0.930, within(0.0005));
    }

    /** GUM H.3: the correction at one reading less that at another owes to u(y2) = 0.00067 alone, by 5.2.2. */
    @Test
    void theRiseOfAFittedLineIsKnownAsItsSlopeIs() {
        List<String> lines = lines("gum-h3.csv").stream().skip(1).toList();
        double[] t = lines.stream()
                .mapToDouble(l -> Double.parseDouble(l.split(",")[0]))
                .toArray();
        double[] b = lines.stream()
                .mapToDouble(l -> Double.parseDouble(l.split(",")[1]))
                .toArray();
        Polynomial line = Polynomial.fit(t, b, 1);
        assertThat(line.standardBetween(20, 30)).isCloseTo(10 * 0.00067, within(10 * 0.000005));
        assertThat(line.standardBetween(24, 24)).isZero();
    }

    private static StraightLine line(String file, double zero) {
        List<String> lines = lines(file).stream().skip(1).toList();
        double[] x = lines.stream()
                .mapToDouble(l -> Double.parseDouble(l.split(",")[0]) - zero)
                .toArray();
        double[] y = lines.stream()
                .mapToDouble(l -> Double.parseDouble(l.split(",")[1]))
                .toArray();
        return StraightLine.of(x, y);
    }

    private static double certified(List<String> lines, int row) {
        return Double.parseDouble(lines.get(row).split(",")[1]);
    }

    /** Of a file under {@code outside/statistics}, but for remarks. */
    static List<String> lines(String file) {
        try (InputStream in = StatisticsReferenceTest.class.getResourceAsStream("/outside/statistics/" + file);
                BufferedReader reader = new BufferedReader(new InputStreamReader(in, UTF_8))) {
            return reader.lines().filter(line -> !line.startsWith("#")).toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
