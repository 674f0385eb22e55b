package dev.lapwing.transport;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.SampleBlock;
import dev.lapwing.bench.Stream;
import dev.lapwing.link.Samples;
import dev.lapwing.measure.ConditionWatch;
import dev.lapwing.measure.GrowingRecording;
import dev.lapwing.plan.PlanStep;
import dev.lapwing.plan.PlannedCondition;
import dev.lapwing.run.Progress;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;

/**
 * From the arrival of the samples that decide what a step waits for to the runner's next step. A pressure goes up and
 * down; step by step the runner waits for it. Which message of samples decides is found by following the same condition
 * through the same messages again; the delay runs from when that message was handed over, whole, to the pseudo-terminal
 * or the broker, so that it holds everything the host does with it, and the broker's time.
 */
final class DecisionDelay {
    static final long HALF_US = 100_000;

    /** So many decisions run code that is not compiled yet. */
    private static final int COLD = 200;

    private static final long AT_MOST_US = 5_000_000;

    private DecisionDelay() {}

    /**
     * Two lines of text: the first decisions, which are those of code that is not compiled yet, and all after them.
     *
     * @param decisions so many after the first
     */
    static String of(String name, Link link, long everyUs, int decisions, Path folder) throws BenchFailure {
        BenchFile file = Pressures.file(link.choice(), everyUs);
        List<PlanStep> steps = new ArrayList<>();
        for (int i = 0; i <= COLD + decisions; i++) {
            steps.add(new PlanStep.WaitUntil(condition(i), AT_MOST_US, "wait " + i, "benchmark:1:1"));
        }
        Clocked clocked = new Clocked();
        HostRun.of(Pressures.plan(file, steps), folder, clocked);
        link.close();
        long[] delays = delays(file, link.carrier().sent(), clocked.steps);
        return told(name + ", first", Arrays.copyOf(delays, COLD))
                + System.lineSeparator()
                + told(name + ", then", Arrays.copyOfRange(delays, COLD, delays.length));
    }

    private static PlannedCondition condition(int step) {
        double middle = Pressures.pascals((SquareWave.LOW + SquareWave.HIGH) / 2);
        return step % 2 == 0
                ? new PlannedCondition.Above(Pressures.first(), middle)
                : new PlannedCondition.Below(Pressures.first(), middle);
    }

    private static long[] delays(BenchFile file, List<StampedCarrier.Sent> sent, List<Step> steps) {
        GrowingRecording again = new GrowingRecording(file);
        long[] delays = new long[steps.size() - 1];
        int message = -1;
        for (int i = 0; i < delays.length; i++) {
            ConditionWatch watch = ConditionWatch.of(condition(i), steps.get(i).fromUs, again);
            watch.advance();
            while (watch.firstHeldUs().isEmpty()) {
                again.samples(
                        block(sent.get(++message).samples(), file.streams().get(0)));
                watch.advance();
            }
            delays[i] = steps.get(i + 1).atNanos - sent.get(message).atNanos();
        }
        return delays;
    }

    private static SampleBlock block(Samples samples, Stream stream) {
        return new SampleBlock(stream, samples.t0Us(), samples.rows(), samples.counts());
    }

    private static String told(String name, long[] delays) {
        long[] sorted = delays.clone();
        Arrays.sort(sorted);
        return String.format(
                Locale.ROOT,
                "%-26s %5d decisions: p50 %6.3f ms, p99 %6.3f ms, p99.9 %6.3f ms, greatest %6.3f ms",
                name,
                sorted.length,
                share(sorted, 0.5),
                share(sorted, 0.99),
                share(sorted, 0.999),
                share(sorted, 1));
    }

    private static double share(long[] sorted, double share) {
        int index = (int) Math.ceil(share * sorted.length) - 1;
        return sorted[Math.max(0, index)] * 1e-6;
    }

    /** When a step began, by both clocks. */
    private record Step(long fromUs, long atNanos) {}

    private static final class Clocked implements Progress {
        private final List<Step> steps = new ArrayList<>();

        @Override
        public void step(Part part, PlanStep step, long atUs) {
            steps.add(new Step(atUs, System.nanoTime()));
        }
    }
}
