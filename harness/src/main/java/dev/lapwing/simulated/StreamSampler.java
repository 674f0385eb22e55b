package dev.lapwing.simulated;

import dev.lapwing.bench.BenchListener;
import dev.lapwing.bench.SampleBlock;
import dev.lapwing.bench.Stream;
import java.util.List;

/** Samples the points of one stream on its grid and hands them on in blocks. */
final class StreamSampler {
    private static final int BLOCK_ROWS = 64;

    private final Stream stream;
    private final SimulatedClock clock;
    private final TruthHistory truth;
    private final Transducer[] transducers;
    private final int[] channels;
    private final int[] counts;
    /** How long after the stamp the last of its values is known. */
    private final long patienceNs;

    private long nextUs;
    private long nextNs;
    private long blockUs;
    private int rows;

    /**
     * @param transducers of the stream's points, in their order
     * @param channels    where the truth of each is kept
     * @param originUs    stamp of the first sample
     */
    StreamSampler(
            Stream stream,
            SimulatedClock clock,
            TruthHistory truth,
            List<Transducer> transducers,
            int[] channels,
            long originUs) {
        this.stream = stream;
        this.clock = clock;
        this.truth = truth;
        this.transducers = transducers.toArray(Transducer[]::new);
        this.channels = channels;
        counts = new int[BLOCK_ROWS * channels.length];
        long latest = 0;
        for (Transducer transducer : transducers) {
            latest = Math.max(latest, -transducer.lagNs());
        }
        patienceNs = latest;
        next(originUs);
    }

    private void next(long us) {
        nextUs = us;
        nextNs = clock.ns(us);
    }

    /** Takes all samples whose truth is known at a true time. */
    void sample(long nowNs, BenchListener listener) {
        while (nextNs + patienceNs <= nowNs) {
            if (rows == 0) {
                blockUs = nextUs;
            }
            int row = rows * channels.length;
            for (int i = 0; i < channels.length; i++) {
                counts[row + i] = transducers[i].sample(truth.at(channels[i], nextNs - transducers[i].lagNs()));
            }
            next(nextUs + stream.everyUs());
            if (++rows == BLOCK_ROWS) {
                flush(listener);
            }
        }
    }

    /** Hands on what was sampled and not handed on yet. */
    void flush(BenchListener listener) {
        if (rows > 0) {
            int full = rows;
            rows = 0;
            listener.samples(new SampleBlock(stream, blockUs, full, counts));
        }
    }
}
