package dev.lapwing.evidence;

import dev.lapwing.bench.SampleBlock;
import dev.lapwing.bench.Stream;
import dev.lapwing.plan.Course;
import java.util.Locale;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import java.util.stream.IntStream;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * A log of ten minutes, twelve channels at 500 samples a second (3.6 million counts) with noise of 13 counts: packed
 * into memory, unpacked, and summed up for {@code evidence-sha256}. The log's size is printed by the set-up.
 *
 * <p>Measured once on a shared machine (AMD EPYC, OpenJDK 17): 33 ms to write, 23 ms to read and sum up, 3.6 MB.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(1)
public class RecordBenchmark {
    private static final int CHANNELS = 12;
    private static final int ROWS = 300_000;
    private static final int BLOCK = 50;

    private final Stream stream = new Stream(
            "quick", IntStream.range(0, CHANNELS).mapToObj(i -> "P" + i).toList(), 2_000);
    private int[][] blocks = {};
    private byte[] log = {};

    /** Makes the samples once, so that drawing them is not measured. */
    @Setup
    public void setUp() throws Exception {
        SplittableRandom random = new SplittableRandom(1);
        blocks = new int[ROWS / BLOCK][BLOCK * CHANNELS];
        for (int[] block : blocks) {
            for (int i = 0; i < block.length; i++) {
                block[i] = 30_000 + 500 * (i % CHANNELS) + random.nextInt(-22, 23);
            }
        }
        log = write();
        System.out.printf(Locale.ROOT, "log of %d counts: %.1f MB%n", ROWS * CHANNELS, log.length * 1e-6);
    }

    /** Packs and frames all samples. */
    @Benchmark
    public byte[] write() throws Exception {
        MemoryStore store = new MemoryStore();
        LogWriter writer = new LogWriter(new FrameWriter(store.log(), "benchmark"), new byte[32]);
        for (int i = 0; i < blocks.length; i++) {
            writer.samples(new SampleBlock(stream, (long) i * BLOCK * stream.everyUs(), BLOCK, blocks[i]));
        }
        writer.end((long) ROWS * stream.everyUs(), Course.Ending.COMPLETE);
        writer.close();
        return store.get(RecordStore.LOG);
    }

    /** Checks and unpacks all frames and sums them up for the evidence checksum. */
    @Benchmark
    public Integrity readAndDigest() {
        return new LogReader(LogBytes.of(log)).replay(new EvidenceDigest());
    }
}
