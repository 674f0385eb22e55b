package dev.lapwing.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.OptionalLong;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** What moving means, averages, extremes and switching say of hand-made signals. */
class ReadingsTest {
    private static final long EVERY_US = 2000;

    @Test
    void theMovingMeanOfARampIsTheRamp() {
        Trace ramp = Traces.of(500, EVERY_US, t -> 3 * t);
        MovingMean mean = new MovingMean(ramp, 20_000, 0);
        while (mean.advance(Long.MAX_VALUE)) {
            assertThat(mean.value()).isCloseTo(3 * mean.timeUs() * 1e-6, within(1e-9));
            assertThat(mean.samples()).isLessThanOrEqualTo(10);
        }
        assertThat(mean.samples()).isEqualTo(10);
    }

    /** Noise whose neighbours are alike with r = 0.9: (1 + r)/(1 − r) = 19 samples are worth one (closed form). */
    @Test
    void samplesThatAreAlikeCountForLess() {
        SplittableRandom random = new SplittableRandom(3);
        double sum = 0;
        for (int run = 0; run < 50; run++) {
            double[] values = new double[2000];
            for (int i = 1; i < values.length; i++) {
                values[i] = 0.9 * values[i - 1] + Traces.normal(random);
            }
            sum += Average.of(values).effectiveSamples();
        }
        assertThat(sum / 50).isBetween(0.7 * 2000 / 19, 1.6 * 2000 / 19);
    }

    @Test
    void aLevelThatDriftsThroughItsWindowIsNoBetterKnownThanItDrifts() {
        Average average = Average.of(Traces.of(1000, EVERY_US, t -> t), new Window(0, 2_000_000))
                .orElseThrow();
        assertThat(average.standardError()).isGreaterThan(0.3 * average.deviation());
    }

    /** The greatest of 30000 noisy samples lies 4 standard deviations up; that of the means is nearer the signal. */
    @Test
    void anExtremeIsOfTheSignalMoreThanOfTheNoise() {
        SplittableRandom random = new SplittableRandom(5);
        Trace trace = Traces.noisy(30_000, EVERY_US, t -> 50, 0.05, random);
        Extremes extremes =
                Extremes.of(trace, new Window(0, 60_000_000), 20_000).orElseThrow();
        assertThat(extremes.greatest()).isBetween(50.0, 50.08);
        assertThat(extremes.least()).isBetween(49.92, 50.0);
        assertThat(extremes.averaged()).isEqualTo(10);
    }

    @Test
    void anExtremeIsFoundWhereItIs() {
        Trace trace = Traces.of(2000, EVERY_US, t -> t < 2 ? t : 4 - t);
        Extremes extremes =
                Extremes.of(trace, new Window(500_000, 3_900_000), 20_000).orElseThrow();
        assertThat(extremes.greatestUs()).isCloseTo(2_000_000, within(10_000L));
        assertThat(extremes.greatest()).isCloseTo(2, within(0.01));
        assertThat(extremes.least()).isCloseTo(0.1, within(0.011));
    }

    @Test
    void contactBounceIsPassedOver() {
        Edges edges = new Edges(false, 0);
        edges.append(1_000, true);
        edges.append(2_000, false);
        edges.append(3_000, true);
        Window window = new Window(0, 50_000);
        assertThat(Switching.first(edges, true, window, 10_000, 100_000)).isEqualTo(OptionalLong.of(3_000));
        assertThat(Switching.first(edges, true, window, 10_000, 12_000)).isEmpty();
        assertThat(Switching.pulses(edges, window)).isEqualTo(2);
    }

    @Test
    void aSwitchingAfterTheWindowIsNone() {
        Edges edges = new Edges(true, 0);
        edges.append(60_000, false);
        assertThat(Switching.first(edges, false, new Window(0, 50_000), 10_000, 100_000))
                .isEmpty();
    }
}
