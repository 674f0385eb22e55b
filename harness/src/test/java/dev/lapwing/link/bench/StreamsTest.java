package dev.lapwing.link.bench;

import static dev.lapwing.link.bench.BenchRig.answer;
import static dev.lapwing.link.bench.BenchRig.kinds;
import static dev.lapwing.link.bench.BenchRig.only;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.lapwing.link.BenchMessage;
import dev.lapwing.link.BenchMessage.Fault;
import dev.lapwing.link.FakePoints;
import dev.lapwing.link.HostMessage;
import dev.lapwing.link.HostMessage.Stream;
import dev.lapwing.link.LinkPoint;
import dev.lapwing.link.MessageWriter;
import dev.lapwing.link.Samples;
import dev.lapwing.link.SerialEncoder;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Streams: grids, batches, what is left out and how that is said. */
class StreamsTest {
    private final BenchRig rig = new BenchRig().greeted();

    @Test
    void aFullBatchIsSentOnItsGrid() {
        rig.say(stream("a", 1_000, 10, 1_000));
        List<Samples> batches = only(Samples.class, rig.pass(29_000));
        assertEquals(3, batches.size());
        assertEquals(1_000_000, batches.get(0).t0Us());
        assertEquals(1_020_000, batches.get(2).t0Us());
        assertEquals(10, batches.get(2).rows());
        assertEquals(2, batches.get(2).of());
        assertFalse(batches.get(2).dense());
    }

    @Test
    void samplesTravelDenseWhereThatWasAskedFor() {
        rig.say(new Stream(BenchRig.MINE, 9, "a", List.of("P1"), 1_000, 10, 100, true));
        assertTrue(only(Samples.class, rig.pass(20_000)).get(0).dense());
    }

    @Test
    void aSlowStreamIsFlushed() {
        rig.say(stream("a", 50_000, 1000, 120));
        List<Samples> batches = only(Samples.class, rig.pass(300_000));
        assertEquals(3, batches.get(0).rows());
        assertEquals(1_150_000, batches.get(1).t0Us());
    }

    @Test
    void endingAStreamSendsTheRestNumberedBeforeItsDone() {
        rig.say(stream("a", 1_000, 10, 1_000));
        rig.pass(4_000);
        rig.bench.receive(new Stream(BenchRig.MINE, 90, "a", List.of(), 1, 1, 1, false), rig.nowUs);
        List<BenchMessage> heard = rig.heard();
        assertEquals(List.of("done", "samples"), kinds(heard));
        assertEquals(5, ((Samples) heard.get(1)).rows());
        assertEquals(((Samples) heard.get(1)).n() + 1, ((BenchMessage.Done) heard.get(0)).next());
        assertEquals(List.of(), only(Samples.class, rig.pass(100_000)));
    }

    @Test
    void replacingAStreamBeginsANewGrid() {
        rig.say(stream("a", 1_000, 10, 1_000));
        rig.pass(4_500);
        Stream faster = stream("a", 100, 10, 1_000);
        rig.say(faster);
        Samples first = only(Samples.class, rig.pass(1_000)).get(0);
        assertEquals(1_004_500, first.t0Us());
        assertEquals(faster.id(), first.of());
    }

    @ParameterizedTest(name = "{0}, dense {1}: {2}")
    @CsvSource({
        "P1,     false, done",
        "P1,     true,  done",
        "P2,     true,  unsupported",
        "D1,     false, done",
        "nobody, false, unknown-point",
        "W1,     false, wrong-kind",
    })
    void whatCanBeStreamed(String point, boolean dense, String expected) {
        assertEquals(
                expected, answer(rig.say(new Stream(BenchRig.MINE, 9, "a", List.of(point), 1_000, 10, 100, dense))));
    }

    @Test
    void aBenchWithoutDenseSamplesSaysSo() {
        BenchRig plain = new BenchRig(FakePoints.card(1, 300, false), 0).greeted();
        assertEquals(
                "unsupported",
                answer(plain.say(new Stream(BenchRig.MINE, 9, "a", List.of("P1"), 1_000, 10, 100, true))));
    }

    @Test
    void aFifthStreamIsRefusedUntilAnotherEnds() {
        for (String name : List.of("a", "b", "c", "d")) {
            assertEquals("done", answer(rig.say(stream(name, 1_000, 10, 100))));
        }
        assertEquals("queue-full", answer(rig.say(stream("e", 1_000, 10, 100))));
        assertEquals("done", answer(rig.say(stream("d", 2_000, 10, 100))));
        rig.say(new Stream(BenchRig.MINE, 90, "a", List.of(), 1, 1, 1, false));
        assertEquals("done", answer(rig.say(new Stream(BenchRig.MINE, 91, "e", List.of("P1"), 1_000, 10, 100, false))));
    }

    @Test
    void whatTheLineDoesNotCarryIsUnsupported() {
        BenchRig slow = new BenchRig(FakePoints.card(), 11_520).greeted();
        assertEquals("done", answer(slow.say(slow.stream(BenchRig.MINE))));
        Stream quick = new Stream(BenchRig.MINE, 90, "quick", List.of("P1", "P2"), 500, 100, 100, false);
        assertEquals("unsupported", answer(slow.say(quick)));
    }

    @Test
    void instantsThatWereMissedAreLeftOutAndSaid() {
        rig.say(stream("a", 1_000, 100, 1_000));
        rig.pass(2_000);
        rig.nowUs += 5_500;
        rig.bench.step(rig.nowUs);
        List<BenchMessage> heard = rig.heard();
        assertEquals(List.of("fault", "samples"), kinds(heard));
        assertEquals("overrun", ((Fault) heard.get(0)).why());
        assertEquals(3, ((Samples) heard.get(1)).rows());
        Samples next = only(Samples.class, rig.pass(100_000)).get(0);
        assertEquals(1_008_000, next.t0Us());
    }

    @Test
    void samplesThatWaitTooLongStopTheStreamAndAreNeverMany() {
        BenchRig line = new BenchRig(FakePoints.card(), 92_160).greeted();
        line.say(new Stream(BenchRig.MINE, 90, "a", List.of("P1", "P2"), 500, 100, 100, false));
        for (int i = 0; i < 100; i++) {
            line.nowUs += 50_000;
            line.bench.step(line.nowUs);
            while (line.bench.nextDueUs() <= line.nowUs) {
                line.bench.step(line.nowUs);
            }
        }
        // Nothing was taken from it for 5 s, during which 10,000 samples were due.
        List<BenchMessage> heard = line.heard();
        int bytes = only(Samples.class, heard).stream()
                .mapToInt(one -> SerialEncoder.of(one).length)
                .sum();
        assertTrue(bytes < 48_000, bytes + " bytes wait");
        assertTrue(
                only(Fault.class, heard).stream().anyMatch(fault -> fault.why().equals("overrun")));
    }

    @Test
    void aPointThatCannotBeReadGivesNoSample() {
        rig.say(stream("a", 1_000, 100, 1_000));
        rig.pass(2_000);
        rig.points.put("P1", FakePoints.NOT_READABLE);
        rig.pass(3_000);
        rig.points.put("P1", 77);
        List<BenchMessage> heard = rig.pass(200_000);
        assertEquals(1_006_000, only(Samples.class, heard).get(0).t0Us());
        assertArrayEquals(
                new int[] {77}, Arrays.copyOf(only(Samples.class, heard).get(0).counts(), 1));
    }

    @Test
    void noMessageTakesLongerThanASixthOfTheLimit() {
        long bytesPerSecond = 92_160;
        BenchRig line = new BenchRig(FakePoints.card(), bytesPerSecond).greeted();
        line.say(new Stream(BenchRig.MINE, 90, "a", List.of("P1", "P2"), 500, 10_000, 10_000, false));
        line.say(new HostMessage.Arm(BenchRig.MINE, 91, BenchRig.BOOT, line.nowUs + 1000, 100, Map.of()));
        for (Samples one : only(Samples.class, line.waitBeating(2_000_000))) {
            int bytes = SerialEncoder.of(one).length;
            assertTrue(bytes * 1000L <= bytesPerSecond * 100 / 6, bytes + " bytes");
            assertTrue(one.rows() > 10, one.rows() + " rows only");
        }
    }

    /** Whatever is asked for, each message keeps to the size that was reckoned for it. */
    @Test
    void noMessageIsLongerThanReckoned() {
        SplittableRandom random = new SplittableRandom(3);
        for (int i = 0; i < 300; i++) {
            boolean dense = random.nextBoolean();
            List<String> points = dense || random.nextBoolean() ? List.of("P1") : List.of("P2", "P1", "D1");
            Stream order = new Stream(
                    BenchRig.MINE,
                    2,
                    "a",
                    points,
                    1 + random.nextInt(100_000),
                    1 + random.nextInt(9_000),
                    1_000,
                    dense);
            List<LinkPoint> sampled = points.stream()
                    .map(name -> FakePoints.card().point(name).orElseThrow())
                    .toList();
            LineBudget.Size size = LineBudget.Size.of(order, sampled);
            int rows = Math.min(order.batch(), size.rowsIn(16_384));
            int[] counts = random.ints((long) rows * points.size(), 0, dense || points.size() == 1 ? 4096 : 2)
                    .toArray();
            Samples samples = new Samples(
                    BenchRig.MINE,
                    random.nextLong(1L << 53),
                    "a",
                    2,
                    random.nextLong(1L << 53),
                    order.everyUs(),
                    points,
                    counts);
            int bytes = dense
                    ? SerialEncoder.dense(MessageWriter.dense(samples)).length
                    : SerialEncoder.line(MessageWriter.json(samples)).length;
            assertTrue(bytes <= size.bytes(rows) && size.bytes(rows) <= 16_384, bytes + " > " + size.bytes(rows));
        }
    }

    private Stream stream(String name, long everyUs, int batch, int flushMs) {
        Stream next = rig.stream(BenchRig.MINE);
        return new Stream(BenchRig.MINE, next.id(), name, List.of("P1"), everyUs, batch, flushMs, false);
    }
}
