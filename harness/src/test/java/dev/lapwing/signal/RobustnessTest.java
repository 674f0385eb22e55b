package dev.lapwing.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class RobustnessTest {
    private static final Formula.Atom A = new Formula.Atom(0);
    private static final Formula.Atom B = new Formula.Atom(1);

    /** The trace of a case: times at uneven steps, atoms as random walks, at times without a measure. */
    private record Case(long[] times, double[][] samples) {
        static Case of(SplittableRandom random, int atoms, int length) {
            long[] times = new long[length];
            double[][] samples = new double[length][atoms];
            long now = random.nextInt(1000);
            for (int i = 0; i < length; i++) {
                times[i] = now;
                now += 1 + random.nextInt(20);
                for (int k = 0; k < atoms; k++) {
                    double before = i == 0 ? 0 : samples[i - 1][k];
                    samples[i][k] = Double.isInfinite(before) ? 0 : before + random.nextInt(-3, 4);
                    if (random.nextInt(30) == 0) {
                        samples[i][k] = random.nextBoolean() ? Double.POSITIVE_INFINITY : Double.NEGATIVE_INFINITY;
                    }
                }
            }
            return new Case(times, samples);
        }
    }

    @Test
    void everyValueIsThatOfTheDefinition() {
        int compared = 0;
        for (int seed = 0; seed < 1500; seed++) {
            SplittableRandom random = new SplittableRandom(seed);
            Case one = Case.of(random, 3, 1 + random.nextInt(40));
            Formula formula = ByDefinition.random(random, 3, 4, 60);
            ByDefinition slow = new ByDefinition(one.times, one.samples);
            Robustness robustness = new Robustness(formula);
            int given = 0;
            for (int i = 0; i < one.times.length; i++) {
                robustness.sample(one.times[i], one.samples[i]);
                for (; robustness.known(); robustness.next(), given++, compared++) {
                    double due = slow.at(formula, given);
                    assertThat(robustness.timeUs()).isEqualTo(one.times[given]);
                    if (!Double.isNaN(due)) {
                        assertThat(robustness.value())
                                .as("seed %d, sample %d of %s", seed, given, formula)
                                .isEqualTo(due);
                    }
                    checkWitness(robustness, one, formula, seed);
                }
            }
            long horizon = Formula.horizonUs(formula);
            assertThat(given == one.times.length || one.times[given] + horizon > one.times[one.times.length - 1])
                    .as("seed %d gives all that the samples tell: %s", seed, formula)
                    .isTrue();
        }
        assertThat(compared).isGreaterThan(10_000);
    }

    private static void checkWitness(Robustness robustness, Case one, Formula formula, int seed) {
        if (Double.isInfinite(robustness.value())) {
            return;
        }
        int at = Arrays.binarySearch(one.times, robustness.decidedUs());
        double of = one.samples[at][robustness.atom()];
        assertThat(robustness.turned() ? -of : of)
                .as("seed %d: the atom and sample that decide %s", seed, formula)
                .isEqualTo(robustness.value());
    }

    /** What a value that came early rests on does not change whatever comes later. */
    @Test
    void aValueThatIsKnownStaysWhateverComes() {
        for (int seed = 0; seed < 500; seed++) {
            SplittableRandom random = new SplittableRandom(seed);
            Case one = Case.of(random, 2, 30);
            Formula formula = ByDefinition.random(random, 2, 3, 100);
            Robustness robustness = new Robustness(formula);
            for (int i = 0; i < 30 && !robustness.known(); i++) {
                robustness.sample(one.times[i], one.samples[i]);
                if (robustness.known()) {
                    Case other = Case.of(new SplittableRandom(seed + 9000), 2, 30);
                    for (int j = i + 1; j < 30; j++) {
                        one.samples[j] = other.samples[j];
                    }
                    double due = new ByDefinition(one.times, one.samples).at(formula, 0);
                    assertThat(Double.isNaN(due) || due == robustness.value())
                            .as("seed %d: %s", seed, formula)
                            .isTrue();
                }
            }
        }
    }

    @Test
    void untilIsKnownOnceWhatHeldHasEndedAndNotOnlyAtItsBound() {
        Robustness robustness = new Robustness(new Formula.Until(0, 1_000_000, A, B));
        robustness.sample(0, new double[] {5, -1});
        robustness.sample(10, new double[] {4, 2});
        assertThat(robustness.known()).isFalse();
        robustness.sample(20, new double[] {1, -3});
        assertThat(robustness.known()).isTrue();
        assertThat(robustness.value()).isEqualTo(2);
        assertThat(robustness.atom()).isEqualTo(1);
        assertThat(robustness.decidedUs()).isEqualTo(10);
    }

    @Test
    void anEventualityIsOpenUntilItsBoundAsItMayGetBetter() {
        Robustness robustness = new Robustness(new Formula.Eventually(0, 30, A));
        robustness.sample(0, new double[] {1});
        robustness.sample(10, new double[] {7});
        robustness.sample(20, new double[] {3});
        assertThat(robustness.known()).isFalse();
        robustness.sample(30, new double[] {2});
        assertThat(robustness.value()).isEqualTo(7);
    }

    @Test
    void theHorizonIsTheSumOfTheBoundsInside() {
        Formula inner = new Formula.Until(0, 5, A, new Formula.Eventually(2, 9, B));
        assertThat(Formula.horizonUs(new Formula.Always(1, 100, new Formula.AnyOf(List.of(inner, A)))))
                .isEqualTo(114);
    }

    @Test
    void memoryDoesNotGrowWithTheTrace() {
        SampleTimes times = new SampleTimes();
        for (int i = 0; i < 100_000; i++) {
            times.add(i);
            times.forgetBefore(i - 10);
        }
        assertThat(times.timeUs(99_995)).isEqualTo(99_995);
        assertThat(times.room()).isEqualTo(64);
    }

    @Test
    void boundsOutOfOrderAreRefused() {
        assertThatThrownBy(() -> new Formula.Always(5, 3, A)).hasMessageContaining("5 to 3");
        List<Formula> none = new ArrayList<>();
        assertThat(Formula.horizonUs(new Formula.AllOf(none))).isZero();
    }
}
