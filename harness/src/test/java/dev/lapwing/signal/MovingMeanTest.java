package dev.lapwing.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** A mean that runs along is the mean of the samples in its width, however the trace grows. */
class MovingMeanTest {
    private static final long WIDTH_US = 20_000;

    private final SplittableRandom random = new SplittableRandom(3);

    @Test
    void eachMeanIsThatOfItsSamplesWhileTheTraceGrows() {
        GrowingTrace trace = new GrowingTrace();
        MovingMean mean = new MovingMean(trace, WIDTH_US, 5_000);
        long us = 0;
        int seen = 0;
        for (int step = 0; step < 3_000; step++) {
            int more = random.nextInt(5);
            for (int i = 0; i < more; i++) {
                us += random.nextInt(1, random.nextInt(20) == 0 ? 60_000 : 400);
                trace.append(us, random.nextDouble());
            }
            while (mean.advance(us - 1_000)) {
                isThatOf(trace, mean);
                seen++;
            }
        }
        int due = trace.firstAtOrAfter(us - 1_000 + 1) - trace.firstAtOrAfter(5_000);
        assertThat(seen).isEqualTo(due).isGreaterThan(3_000);
    }

    private static void isThatOf(Trace trace, MovingMean mean) {
        int newest = trace.firstAtOrAfter(mean.newestUs());
        int oldest = trace.firstAtOrAfter(Math.max(5_000, mean.newestUs() - WIDTH_US + 1));
        double sum = 0;
        double timesUs = 0;
        for (int i = oldest; i <= newest; i++) {
            sum += trace.value(i);
            timesUs += trace.timeUs(i) - trace.timeUs(oldest);
        }
        int count = newest + 1 - oldest;
        assertThat(mean.samples()).isEqualTo(count);
        assertThat(mean.value()).isCloseTo(sum / count, within(1e-12));
        assertThat((double) mean.timeUs()).isCloseTo(trace.timeUs(oldest) + timesUs / count, within(1.0));
    }

    @Test
    void whatIsPassedOverChangesNothing() {
        for (int round = 0; round < 200; round++) {
            GrowingTrace trace = new GrowingTrace();
            long everyUs = random.nextInt(100, 3_000);
            double wander = 100_000;
            for (int i = 0; i < 9_000; i++) {
                wander += i % 700 == 0 ? 300 * Traces.normal(random) : 0;
                long jumpUs = random.nextInt(4_000) == 0 ? 50_000 : 0;
                long lastUs = trace.size() == 0 ? 0 : trace.timeUs(trace.size() - 1);
                trace.append(lastUs + everyUs + jumpUs, wander + 40 * Traces.normal(random));
            }
            Window window = new Window(5 * everyUs, 8_500 * everyUs);
            boolean greatest = round % 2 == 0;
            Extremes extremes = Extremes.of(trace, window, WIDTH_US).orElseThrow();
            assertThat(extremes)
                    .isEqualTo(Extremes.of(new LookedAtWhole(trace), window, WIDTH_US)
                            .orElseThrow());
            double extreme = greatest ? extremes.greatest() : extremes.least();
            assertThat(Plateau.widths(trace, window, WIDTH_US, greatest, extreme, 9))
                    .isEqualTo(Plateau.widths(new LookedAtWhole(trace), window, WIDTH_US, greatest, extreme, 9));
        }
    }

    /** Of which nothing is told without looking at each sample. */
    private record LookedAtWhole(Trace trace) implements Trace {
        @Override
        public int size() {
            return trace.size();
        }

        @Override
        public long timeUs(int i) {
            return trace.timeUs(i);
        }

        @Override
        public double value(int i) {
            return trace.value(i);
        }

        @Override
        public Bounds bounds(int from, int to) {
            return Bounds.OPEN;
        }
    }
}
