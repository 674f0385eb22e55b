package dev.lapwing.transport;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.SampleBlock;
import dev.lapwing.bench.SelectiveListener;
import java.util.concurrent.atomic.AtomicInteger;

/** A host that takes samples until it has so many, and notes when the first and the last of them came. */
final class Taken implements SelectiveListener {
    private static final long SLICE_US = 20_000;

    private final AtomicInteger messages;
    private final int wanted;
    private long firstNanos;
    private long lastNanos;
    private String lost = "";

    /** @param messages counted up with each message that comes */
    Taken(int wanted, AtomicInteger messages) {
        this.wanted = wanted;
        this.messages = messages;
    }

    /** Listens until all have come; seconds from the first to the last. */
    double seconds(BenchFile file) throws BenchFailure {
        try (Bench bench = Link.open(file)) {
            bench.watch();
            while (messages.get() < wanted && lost.isEmpty()) {
                bench.advance(bench.nowUs() + SLICE_US, this);
            }
        }
        if (!lost.isEmpty()) {
            throw new IllegalStateException("lost: " + lost);
        }
        return (lastNanos - firstNanos) * 1e-9;
    }

    @Override
    public void samples(SampleBlock block) {
        lastNanos = System.nanoTime();
        if (messages.getAndIncrement() == 0) {
            firstNanos = lastNanos;
        }
    }

    @Override
    public void lost(String streamOrPoint, long fromUs, long toUs) {
        lost = streamOrPoint + " from " + fromUs + " us to " + toUs + " us";
    }
}
