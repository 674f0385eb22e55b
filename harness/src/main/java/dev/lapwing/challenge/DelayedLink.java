package dev.lapwing.challenge;

import dev.lapwing.bench.BenchListener;
import dev.lapwing.bench.SampleBlock;
import dev.lapwing.bench.SelectiveListener;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.SplittableRandom;

/**
 * A link that delivers reports late, each by its own delay, samples and edges each in their order: what arrives first
 * need not have happened first.
 */
final class DelayedLink implements SelectiveListener {
    private final BenchListener to;
    private final long delayUs;
    private final long jitterUs;
    private final SplittableRandom random;
    private final List<Report> underWay = new ArrayList<>();
    private long samplesUs = Long.MIN_VALUE;
    private long edgesUs = Long.MIN_VALUE;

    private record Report(long arrivesUs, Runnable tell) {}

    DelayedLink(BenchListener to, long delayUs, long jitterUs, SplittableRandom random) {
        this.to = to;
        this.delayUs = delayUs;
        this.jitterUs = jitterUs;
        this.random = random;
    }

    /** Delivers what is under way, in the order of arrival. */
    void deliver() {
        underWay.sort(Comparator.comparingLong(Report::arrivesUs));
        underWay.forEach(report -> report.tell.run());
        underWay.clear();
    }

    private long arrival(long sentUs, long notBeforeUs) {
        return Math.max(notBeforeUs, sentUs + delayUs + (jitterUs == 0 ? 0 : random.nextLong(jitterUs + 1)));
    }

    @Override
    public void samples(SampleBlock block) {
        int columns = block.stream().points().size();
        int[] counts = Arrays.copyOf(block.counts(), block.rows() * columns);
        SampleBlock copy = new SampleBlock(block.stream(), block.t0Us(), block.rows(), counts);
        samplesUs = arrival(block.t0Us() + block.rows() * block.stream().everyUs(), samplesUs);
        underWay.add(new Report(samplesUs, () -> to.samples(copy)));
    }

    @Override
    public void edge(String point, long atUs, boolean level) {
        edgesUs = arrival(atUs, edgesUs);
        underWay.add(new Report(edgesUs, () -> to.edge(point, atUs, level)));
    }
}
