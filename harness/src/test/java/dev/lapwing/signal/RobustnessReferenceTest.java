package dev.lapwing.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.SplittableRandom;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;

class RobustnessReferenceTest {
    private static final long SECOND = 1_000_000;
    private static final Formula X = new Formula.Atom(0);
    private static final Formula Y = new Formula.Atom(1);

    /**
     * The running example of online monitoring: always from 0 to a, (y not above 0, or x above 0 once from b to c),
     * with a = 6, b = 10, c = 14, is −2 and is known once the samples of time 19 have come.
     *
     * <p>Source: J. Deshmukh, A. Donzé, S. Ghosh, X. Jin, G. Juniwal, S. Seshia, "Robust online monitoring of signal
     * temporal logic", Formal Methods in System Design 51 (2017), running example, of the formula of A. Donzé, T.
     * Ferrère and O. Maler, "Efficient Robust Monitoring for STL", CAV 2013. Values of the trace and the result
     * second-hand, from the tests of a published monitoring library that cites it; the paper itself was not seen.
     */
    @Test
    void theRunningExampleOfOnlineMonitoringIsMinusTwo() {
        Formula formula = new Formula.Always(
                0,
                6 * SECOND,
                new Formula.AnyOf(List.of(new Formula.Not(Y), new Formula.Eventually(10 * SECOND, 14 * SECOND, X))));
        int[] begins = {0, 4, 8, 13, 19, 22};
        double[] x = {1, 2, -1, -2, 2, -1};
        double[] y = {-1, 2, -1, 1, 1, 1};
        Robustness robustness = new Robustness(formula);
        int known = -1;
        int piece = 0;
        for (int t = 0; t <= 24; t++) {
            piece += piece + 1 < begins.length && t >= begins[piece + 1] ? 1 : 0;
            robustness.sample(t * SECOND, new double[] {x[piece], y[piece]});
            known = known < 0 && robustness.known() ? t : known;
        }
        assertThat(robustness.value()).isEqualTo(-2);
        assertThat(robustness.decidedUs()).isEqualTo(4 * SECOND);
        assertThat(known).isLessThanOrEqualTo(20);
    }

    /**
     * What robustness promises: a signal that stays within less than its margin of another has the same truth.
     *
     * <p>Source: G. Fainekos and G. Pappas, "Robustness of temporal logic specifications for continuous-time signals",
     * Theoretical Computer Science 410 (2009), the theorem on the robustness neighbourhood (from memory).
     */
    @Test
    void noSignalWithinTheMarginHasTheOtherTruth() {
        for (int seed = 0; seed < 400; seed++) {
            SplittableRandom random = new SplittableRandom(seed);
            Formula formula = ByDefinition.random(random, 2, 3, 40);
            long[] times = new long[150];
            double[][] samples = new double[150][2];
            for (int i = 0; i < 150; i++) {
                times[i] = i;
                samples[i][0] = 4 * StrictMath.sin(i * 0.11 + seed);
                samples[i][1] = 3 * StrictMath.cos(i * 0.07 * (1 + seed % 3));
            }
            double margin = Robustness.first(formula, times, samples).orElseThrow();
            for (int draw = 0; draw < 5; draw++) {
                double[][] near = new double[150][2];
                for (int i = 0; i < 150; i++) {
                    for (int k = 0; k < 2; k++) {
                        near[i][k] = samples[i][k] + 0.999 * Math.abs(margin) * (2 * random.nextDouble() - 1);
                    }
                }
                double other = Robustness.first(formula, times, near).orElseThrow();
                assertThat(other > 0).as("seed %d: %s", seed, formula).isEqualTo(margin > 0);
            }
        }
    }

    /** Source: closed form. Of sin t over 0 to 2π: always above −1.5 by 0.5; above 0.5 once from 0 to π/6 by 0. */
    @Test
    void marginsOfASineAreThoseOfItsExtremes() {
        assertThat(ofSine(new Formula.Always(0, 6_283_185, X), v -> v + 1.5)).isCloseTo(0.5, within(1e-6));
        assertThat(ofSine(new Formula.Eventually(0, 523_598, X), v -> v - 0.5)).isCloseTo(0, within(1e-3));
        // At every instant of the first half turn, below 0 again within a quarter turn at most after it: by sin(π/2) at
        // 0.
        Formula within = new Formula.Always(0, 3_141_592, new Formula.Eventually(0, 4_712_388, X));
        assertThat(ofSine(within, v -> -v)).isCloseTo(1, within(1e-6));
    }

    private static double ofSine(Formula formula, DoubleUnaryOperator atom) {
        Robustness robustness = new Robustness(formula);
        for (long us = 0; !robustness.known(); us += 1000) {
            robustness.sample(us, new double[] {atom.applyAsDouble(StrictMath.sin(us * 1e-6))});
        }
        return robustness.value();
    }
}
