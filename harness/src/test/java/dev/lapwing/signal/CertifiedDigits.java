package dev.lapwing.signal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;

/**
 * NIST's measure of how far a computed value agrees with a certified one: minus the decimal logarithm of its relative
 * error, of its error where the certified value is 0.
 */
final class CertifiedDigits {
    private CertifiedDigits() {}

    static void agree(List<Double> found, List<Double> certified, int digits) {
        assertThat(found).hasSameSizeAs(certified);
        for (int i = 0; i < found.size(); i++) {
            agree(found.get(i), certified.get(i), digits);
        }
    }

    static void agree(double found, double certified, int digits) {
        double error = Math.abs(found - certified);
        double right = -Math.log10(certified == 0 ? error : error / Math.abs(certified));
        assertThat(right).as("%s, certified %s", found, certified).isGreaterThanOrEqualTo(digits);
    }
}
