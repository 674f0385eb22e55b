package dev.lapwing.signal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class SpansTest {
    /** Whole microseconds make samples one microsecond apart the same thing: true is above 0, false below. */
    @Test
    void truthOfStretchesIsThatOfSamplesOneByOne() {
        int length = 160;
        int compared = 0;
        for (int seed = 0; seed < 600; seed++) {
            SplittableRandom random = new SplittableRandom(seed);
            long[] times = new long[length];
            double[][] samples = new double[length][3];
            Spans[] atoms = new Spans[3];
            for (int atom = 0; atom < 3; atom++) {
                atoms[atom] = fill(random, samples, atom);
            }
            for (int i = 0; i < length; i++) {
                times[i] = i;
            }
            Formula formula = ByDefinition.random(random, 3, 3, 12);
            Spans truth = Spans.of(formula, atoms);
            ByDefinition slow = new ByDefinition(times, samples);
            for (int i = 0; i + Formula.horizonUs(formula) < length - 1; i += 7, compared++) {
                assertThat(truth.at(i))
                        .as("seed %d at %d: %s of %s", seed, i, formula, Arrays.toString(atoms))
                        .isEqualTo(slow.at(formula, i) > 0);
            }
        }
        assertThat(compared).isGreaterThan(8_000);
    }

    private static Spans fill(SplittableRandom random, double[][] samples, int atom) {
        long[] pairs = new long[2 * samples.length];
        int count = 0;
        boolean on = random.nextBoolean();
        for (int i = 0; i < samples.length; i++) {
            on = random.nextInt(5) == 0 ? !on : on;
            samples[i][atom] = on ? 1 : -1;
            if (on) {
                pairs[count++] = i;
                pairs[count++] = i + 1;
            }
        }
        return Spans.of(Arrays.copyOf(pairs, count));
    }

    @Test
    void stretchesThatMeetAreOne() {
        assertThat(Spans.of(1, 4, 4, 6, 9, 9, 8, 12).toString()).isEqualTo("[1, 6, 8, 12]");
        assertThat(Spans.of(1, 6).without(Spans.of(2, 3)).toString()).isEqualTo("[1, 2, 3, 6]");
        assertThat(Spans.of(1, 6).at(0)).isFalse();
        assertThat(Spans.of(1, 6).at(1)).isTrue();
        assertThat(Spans.of(1, 6).at(6)).isFalse();
    }
}
