package dev.lapwing.evidence;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lapwing.bench.SampleBlock;
import dev.lapwing.plan.Course;
import java.io.IOException;
import java.lang.reflect.Proxy;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class LogRecoveryTest {
    private static final byte[] PLAN_SHA = new byte[32];

    @TempDir
    Path records;

    /** The events as lines; samples one row a line, so that packing does not show. */
    private static final class Lines {
        private final List<String> lines = new ArrayList<>();

        RunLog log() {
            return (RunLog) Proxy.newProxyInstance(
                    RunLog.class.getClassLoader(), new Class<?>[] {RunLog.class}, (proxy, method, arguments) -> {
                        if (arguments[0] instanceof SampleBlock block) {
                            rows(block);
                        } else {
                            Object[] plain = Arrays.stream(arguments)
                                    .map(one -> one instanceof Map<?, ?> map ? new TreeMap<>(map) : one)
                                    .toArray();
                            lines.add(method.getName() + Arrays.deepToString(plain));
                        }
                        return null;
                    });
        }

        private void rows(SampleBlock block) {
            int width = block.stream().points().size();
            for (int row = 0; row < block.rows(); row++) {
                int[] counts = Arrays.copyOfRange(block.counts(), row * width, (row + 1) * width);
                lines.add("row " + (block.t0Us() + row * block.stream().everyUs()) + Arrays.toString(counts));
            }
        }
    }

    private static byte[] small() {
        MemoryStore store = new MemoryStore();
        LogWriter log = new LogWriter(new FrameWriter(store.log(), "test"), PLAN_SHA);
        SampleRun.tell(log, 4, 3);
        log.close();
        try {
            return store.get(RecordStore.LOG);
        } catch (IOException e) {
            throw new AssertionError(e);
        }
    }

    private static List<String> events(byte[] log) {
        Lines lines = new Lines();
        new LogReader(LogBytes.of(log)).replay(lines.log());
        return lines.lines;
    }

    @Test
    void whatWasToldIsToldAgain() {
        Lines told = new Lines();
        SampleRun.tell(told.log(), 4, 3);

        assertThat(events(small())).containsExactlyInAnyOrderElementsOf(told.lines);
    }

    /** Only counts, since it is told thousands of times. */
    private static final class Count {
        private int events;

        RunLog log() {
            return (RunLog) Proxy.newProxyInstance(
                    RunLog.class.getClassLoader(), new Class<?>[] {RunLog.class}, (proxy, method, arguments) -> {
                        events += arguments[0] instanceof SampleBlock block ? block.rows() : 1;
                        return null;
                    });
        }
    }

    @Test
    void aLogCutAtAnyByteGivesEverythingBeforeTheCut() {
        byte[] whole = small();
        List<String> all = events(whole);
        int before = 0;
        for (int length = 0; length < whole.length; length++) {
            Count count = new Count();
            byte[] cut = Arrays.copyOf(whole, length);
            Integrity integrity = new LogReader(LogBytes.of(cut)).replay(count.log());

            assertThat(integrity.state()).as("cut at byte " + length).isEqualTo(Integrity.State.CUT);
            assertThat(count.events).isBetween(before, all.size());
            before = count.events;
            if (length % 1009 == 0) {
                assertThat(events(cut)).isEqualTo(all.subList(0, before));
            }
        }
        assertThat(before).isGreaterThan(all.size() - 3);
    }

    @Test
    void anyChangedByteIsFoundAndNothingFromThereOnIsBelieved() {
        byte[] whole = small();
        List<String> all = events(whole);
        for (int at = 0; at < whole.length; at++) {
            byte[] changed = whole.clone();
            changed[at] ^= (byte) (1 << at % 8);
            Count count = new Count();
            Integrity integrity = new LogReader(LogBytes.of(changed)).replay(count.log());

            assertThat(integrity.state()).as("changed at byte " + at).isEqualTo(Integrity.State.DAMAGED);
            assertThat(count.events).isLessThan(all.size());
            if (at % 1009 == 0) {
                assertThat(events(changed)).isEqualTo(all.subList(0, count.events));
            }
        }
    }

    @Test
    void junkIsDamageAndNeverAnotherFailure() {
        SplittableRandom random = new SplittableRandom(11);
        for (int round = 0; round < 500; round++) {
            byte[] junk = new byte[random.nextInt(400)];
            random.nextBytes(junk);
            Integrity integrity = new LogReader(LogBytes.of(junk)).replay(new Lines().log());
            assertThat(integrity.state()).isNotEqualTo(Integrity.State.WHOLE);
        }
    }

    @Test
    void somethingAfterTheEndIsDamage() {
        byte[] whole = small();
        byte[] longer = Arrays.copyOf(whole, whole.length + 1);

        assertThat(new LogReader(LogBytes.of(longer)).replay(new Lines().log()).state())
                .isEqualTo(Integrity.State.DAMAGED);
    }

    @Test
    void aRecordCutInMidRunOpensAndEndsWithATroubleOfTheBench() throws Exception {
        try (OpenRecord open = OpenRecord.create(records, SampleRun.identity("cut"), SamplePlan.plan())) {
            SampleRun.tell(open.log(), 4, 3);
        }
        Path log = records.resolve("cut/log.bin");
        byte[] whole = Files.readAllBytes(log);
        for (int length = 0; length < whole.length; length += 211) {
            Files.write(log, Arrays.copyOf(whole, length));
            RunRecord record = RunRecord.open(records.resolve("cut"));

            assertThat(record.integrity().state()).isEqualTo(Integrity.State.CUT);
            assertThat(record.course().ending()).isEqualTo(Course.Ending.CUT_SHORT);
            assertThat(record.course().troubles()).last().satisfies(trouble -> {
                assertThat(trouble.kind()).isEqualTo(Course.Trouble.Kind.BENCH);
                assertThat(trouble.why()).contains("ends at byte");
            });
        }
    }

    @Test
    void aWindowThatWasStillOpenAtTheCutIsIncomplete() {
        byte[] whole = small();
        LogBytes bytes = LogBytes.of(Arrays.copyOf(whole, whole.length * 3 / 4));
        StoredCounts counts = new StoredCounts(bytes);
        Replayed replayed = new Replayed(SamplePlan.bench(), counts);
        Integrity cut = new LogReader(bytes, Optional.of(counts)).replay(replayed);

        assertThat(replayed.course(cut, LocalDate.EPOCH).windows())
                .singleElement()
                .satisfies(window -> {
                    assertThat(window.complete()).isFalse();
                    assertThat(window.closedUs()).isBetween(2_000_000L, 4_000_000L);
                });
    }

    @Test
    void afterAClosedWindowEverythingBeforeItIsOnTheDisk() throws Exception {
        try (OpenRecord open = OpenRecord.create(records, SampleRun.identity("forced"), SamplePlan.plan())) {
            RunLog log = open.log();
            log.edge("D1", 5, true);
            log.closed(new Course.ExpectationWindow("one", 1, 2, 3, true));

            assertThat(events(Files.readAllBytes(records.resolve("forced/log.bin"))))
                    .hasSize(2);
        }
    }

    @Test
    void aFullDiskIsOneClearFailureAndStaysOne() {
        LogSink full = new LogSink() {
            private int left = 400;

            @Override
            public void write(byte[] bytes, int length) throws IOException {
                left -= length;
                if (left < 0) {
                    throw new IOException("No space left on device");
                }
            }

            @Override
            public void force() {
                // Only the writing fails.
            }

            @Override
            public void close() {
                // Nothing was opened.
            }
        };
        LogWriter log = new LogWriter(new FrameWriter(full, ".records/some-run"), PLAN_SHA);

        for (int i = 0; i < 2; i++) {
            assertThatThrownBy(() -> SampleRun.tell(log, 4, 3))
                    .isInstanceOf(RecordFailure.class)
                    .hasMessage(".records/some-run: the run record cannot be written: No space left on device");
        }
    }

    @Test
    void nothingIsAppendedAfterTheEnd() {
        LogWriter log = new LogWriter(new FrameWriter(new MemoryStore().log(), "test"), PLAN_SHA);
        SampleRun.tell(log, 4, 3);

        assertThatThrownBy(() -> log.mark(1, "late")).isInstanceOf(IllegalStateException.class);
    }
}
