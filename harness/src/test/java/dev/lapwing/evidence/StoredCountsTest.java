package dev.lapwing.evidence;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.bench.SampleBlock;
import dev.lapwing.bench.Stream;
import dev.lapwing.measure.Counts;
import dev.lapwing.plan.Course;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** What is unpacked from its place in a log is what was written there, wherever pages and frames end. */
class StoredCountsTest {
    private static final int ROWS = 30_000;

    private final SplittableRandom random = new SplittableRandom(7);
    private final Map<String, List<int[]>> written = new HashMap<>();
    private final MemoryStore store = new MemoryStore();

    private final List<Stream> streams = List.of(
            new Stream("quick", IntStream.range(0, 9).mapToObj(i -> "Q" + i).toList(), 200),
            new Stream("slow", List.of("S0", "S1"), 50_000));

    private StoredCounts stored() {
        LogWriter writer = new LogWriter(new FrameWriter(store.log(), "test"), new byte[32]);
        long atUs = 0;
        for (int row = 0; row < ROWS; ) {
            Stream stream = streams.get(random.nextInt(5) == 0 ? 1 : 0);
            int rows = random.nextInt(1, 120);
            writer.samples(new SampleBlock(stream, atUs, rows, counts(stream, rows)));
            if (random.nextInt(10) == 0) {
                writer.edge("D1", atUs, random.nextBoolean());
            }
            atUs += rows * stream.everyUs() + random.nextInt(2) * 1_000;
            row += rows;
        }
        writer.end(atUs, Course.Ending.COMPLETE);
        writer.close();
        StoredCounts counts = new StoredCounts(store.logBytes());
        Integrity integrity =
                new LogReader(store.logBytes(), Optional.of(counts)).replay(new Replayed(SamplePlan.bench(), counts));
        assertThat(integrity).isEqualTo(Integrity.WHOLE);
        return counts;
    }

    /** Mostly small steps, and now and then the greatest there are. */
    private int[] counts(Stream stream, int rows) {
        int width = stream.points().size();
        int[] counts = new int[rows * width];
        for (int i = 0; i < counts.length; i++) {
            counts[i] = random.nextInt(50) == 0 ? random.nextInt() : 30_000 + random.nextInt(-22, 23);
        }
        for (int row = 0; row < rows; row++) {
            int[] one = new int[width];
            System.arraycopy(counts, row * width, one, 0, width);
            written.computeIfAbsent(stream.name(), name -> new ArrayList<>()).add(one);
        }
        return counts;
    }

    @Test
    void everyCountIsFoundForwardsBackwardsAndAnyhow() {
        StoredCounts stored = stored();
        for (Stream stream : streams) {
            List<int[]> rows = written.get(stream.name());
            for (int column = 0; column < stream.points().size(); column++) {
                Counts counts = stored.counts(stream.name(), column);
                for (int row = 0; row < rows.size(); row++) {
                    assertThat(counts.at(row)).isEqualTo(rows.get(row)[column]);
                }
                for (int i = 0; i < 200; i++) {
                    int row = random.nextInt(rows.size());
                    assertThat(counts.at(row)).isEqualTo(rows.get(row)[column]);
                }
            }
        }
    }

    @Test
    void aStretchIsReadAcrossPages() {
        StoredCounts stored = stored();
        List<int[]> rows = written.get("quick");
        int[] into = new int[rows.size()];

        stored.counts("quick", 4).read(3, rows.size() - 3, into);

        for (int row = 3; row < rows.size(); row++) {
            assertThat(into[row - 3]).isEqualTo(rows.get(row)[4]);
        }
    }

    @Test
    void anExtentIsNeverInsideOfWhatIsThere() {
        StoredCounts stored = stored();
        List<int[]> rows = written.get("quick");
        Counts counts = stored.counts("quick", 2);
        for (int i = 0; i < 100; i++) {
            int from = random.nextInt(rows.size() - 1);
            int to = random.nextInt(from + 1, rows.size());
            var there = rows.subList(from, to).stream().mapToInt(row -> row[2]).summaryStatistics();
            Counts.Extent extent = counts.extent(from, to);
            assertThat(extent.least()).isLessThanOrEqualTo(there.getMin());
            assertThat(extent.greatest()).isGreaterThanOrEqualTo(there.getMax());
            assertThat(extent.row()).isGreaterThanOrEqualTo(longestRow(rows.subList(from, to)));
        }
    }

    private static int longestRow(List<int[]> rows) {
        int longest = 1;
        int row = 1;
        for (int i = 1; i < rows.size(); i++) {
            row = rows.get(i)[2] == rows.get(i - 1)[2] ? row + 1 : 1;
            longest = Math.max(longest, row);
        }
        return longest;
    }
}
