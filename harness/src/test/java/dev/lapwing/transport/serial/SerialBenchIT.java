package dev.lapwing.transport.serial;

import static dev.lapwing.Patience.await;
import static java.nio.charset.StandardCharsets.US_ASCII;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.bench.Point;
import dev.lapwing.evidence.RunRecord;
import dev.lapwing.finding.Verdict;
import dev.lapwing.link.Wire;
import dev.lapwing.plan.PlannedExpectation;
import dev.lapwing.run.Progress;
import dev.lapwing.simulated.SimulatedTerminals;
import dev.lapwing.time.MonotonicClock;
import dev.lapwing.transport.linked.FarCab;
import dev.lapwing.transport.linked.LinkLook;
import dev.lapwing.transport.linked.WatchedBench;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicReference;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The simulated bench behind a real serial device: both ends of the link with their threads, in one process. */
class SerialBenchIT {
    private static final double SPEED = 2;
    private static final int BAUD = 4_000_000;
    /** Longer than a real bench may offer: nothing is live here, and a busy machine may stand still for a while. */
    private static final int BEAT_MS = 1_500;

    private static final double BEAT_TIMES = (double) BEAT_MS / Wire.BEAT_MS_MAX;
    private static final MonotonicClock CLOCK = MonotonicClock.system();

    @TempDir
    private Path records;

    private ServedLine line;
    private WatchedBench served;
    private BenchFile file;

    @BeforeEach
    void serve() throws BenchFailure, IOException {
        SimulatedTerminals terminals = FarCab.terminals();
        line = ServedLine.open(BAUD);
        served = WatchedBench.serve(terminals.card(FarCab.token(1), BEAT_TIMES * SPEED), terminals, line, SPEED);
        file = FarCab.reached(new LinkChoice.Serial(line.device(), BAUD, BEAT_MS, SPEED));
    }

    @AfterEach
    void nothingIsLeft() {
        served.close();
        await("threads of the link end")
                .untilAsserted(() -> assertThat(threads()).isEmpty());
    }

    private static List<String> threads() {
        List<String> names = new ArrayList<>();
        Thread.getAllStackTraces().keySet().stream()
                .map(Thread::getName)
                .filter(name -> name.startsWith("lapwing"))
                .forEach(names::add);
        return names;
    }

    private Bench open(long session) throws BenchFailure {
        return SerialBench.open(file, (LinkChoice.Serial) file.link(), FarCab.host(session), CLOCK);
    }

    @Test
    void aSequenceOverSerialAgreesWithTheSimulatedRun() throws BenchFailure {
        try (Bench bench = open(1)) {
            RunRecord linked = FarCab.passesAsSimulated(bench, file, records);

            assertThat(linked.summary().run().simulated()).isTrue();
        }
    }

    @Test
    void aCablePulledMidRunEndsInAnErrorASafeBenchAndAReadableRecord() throws Exception {
        Progress pulls = new Progress() {
            @Override
            public void opened(PlannedExpectation expectation, long atUs) {
                line.close();
            }
        };
        try (Bench bench = open(2)) {
            RunRecord record = FarCab.on(bench, file, records, pulls);

            assertThat(record.verdict()).isEqualTo(Verdict.ERROR);
            assertThat(record.course().troubles()).hasSize(1);
            assertThat(record.course().troubles().get(0).why()).contains("link to the bench is lost");
            served.endsSafe();
            RunRecord again = RunRecord.open(records.resolve("far-cab"));
            assertThat(again.verdict()).isEqualTo(Verdict.ERROR);
            assertThat(again.samples()).isPositive();
        }
    }

    @Test
    void aRunnerThatStandsStillLosesTheBench() throws BenchFailure {
        try (Bench bench = open(3)) {
            bench.arm();

            served.endsSafe("beat-lost");
        }
    }

    @Test
    void anyThreadMakesTheBenchSafeAtOnce() throws Exception {
        try (Bench bench = open(4)) {
            bench.arm();
            Thread other = new Thread(bench::safe);
            other.start();
            other.join();

            served.endsSafe("host");
        }
    }

    @Test
    void aDeviceThatIsNotThereIsNamed() {
        LinkChoice.Serial gone = new LinkChoice.Serial("/dev/no-such-device", BAUD, BEAT_MS, 1);

        assertThatThrownBy(() -> SerialBench.open(FarCab.reached(gone), gone, FarCab.host(5), CLOCK))
                .isInstanceOf(BenchFailure.class)
                .hasMessageContaining("/dev/no-such-device");
    }

    @Test
    void aDeviceThatSaysNothingIsToldFromOneThatSaysSomethingElse() throws Exception {
        try (FarEnd silent = new FarEnd(bytes -> {})) {
            LinkChoice.Serial there = at(silent);
            assertThatThrownBy(() -> SerialBench.open(FarCab.reached(there), there, FarCab.host(5), CLOCK))
                    .isInstanceOf(BenchFailure.class)
                    .hasMessageContaining(silent.device())
                    .hasMessageContaining(
                            "nothing comes from there; look at the power, the cable and the name of the device");
        }
        AtomicReference<FarEnd> other = new AtomicReference<>();
        byte[] sentence = "#weight 12.4 kg\r\n".getBytes(US_ASCII);
        try (FarEnd scales = new FarEnd(bytes -> other.get().say(sentence))) {
            other.set(scales);
            assertThatThrownBy(() -> SerialBench.look(at(scales), FarCab.host(5), CLOCK, 1))
                    .isInstanceOf(BenchFailure.class)
                    .hasMessageContaining(
                            "bytes came that are no message of a bench; look at the baud rate (here " + BAUD + ")");
        }
    }

    private static LinkChoice.Serial at(FarEnd end) {
        return new LinkChoice.Serial(end.device(), BAUD, BEAT_MS, SPEED);
    }

    @Test
    void aSecondHostIsTurnedAway() throws BenchFailure {
        try (Bench bench = open(6)) {
            assertThatThrownBy(() -> open(7)).isInstanceOf(BenchFailure.class).hasMessageContaining("another program");
            assertThat(bench.identity().name()).startsWith("simulated-");
        }
    }

    @Test
    void aBenchThatIsNotWhatItsFileSaysIsRefused() {
        List<Point> points = new ArrayList<>(file.points());
        Point first = points.get(0);
        points.set(0, new Point("NOT-THERE", first.kind(), first.min(), first.max(), 0, 0, first.stampUs(), 0));
        BenchFile other = new BenchFile(
                "other.yaml", file.name(), file.link(), file.clockRateBound(), points, List.of(), List.of(), List.of());

        assertThatThrownBy(() -> SerialBench.open(other, (LinkChoice.Serial) file.link(), FarCab.host(8), CLOCK))
                .isInstanceOf(BenchFailure.class)
                .hasMessageContaining("NOT-THERE")
                .hasMessageContaining("other.yaml");
    }

    @Test
    void aBenchIsOpenedAgainAndAgain() throws BenchFailure {
        for (int i = 0; i < 3; i++) {
            try (Bench bench = open(10 + i)) {
                bench.arm();
            }
        }
        assertThat(served.armed()).isFalse();
    }

    /** A greeting takes seconds there; one for each hello that was said meanwhile would keep the line for a minute. */
    @Test
    void overASlowLineOneGreetingIsAwaited() throws Exception {
        SimulatedTerminals terminals = FarCab.terminals();
        ServedLine slow = ServedLine.open(19_200);
        try (WatchedBench bench = WatchedBench.serve(terminals.card(FarCab.token(1)), terminals, slow, 1)) {
            LinkChoice.Serial link = new LinkChoice.Serial(slow.device(), 19_200, BEAT_MS, 1);

            // Where the machine stands still for half a second, a ping counts as lost: then it is looked at again.
            await("a look that loses nothing")
                    .until(() -> SerialBench.look(link, FarCab.host(21), CLOCK, 5)
                                    .pings()
                                    .lost()
                            == 0);
            assertThat(bench.armed()).isFalse();
        }
    }

    @Test
    void aLookTellsWhoAnswersAndHowLongItTakes() throws BenchFailure {
        LinkLook.Seen seen = SerialBench.look((LinkChoice.Serial) file.link(), FarCab.host(20), CLOCK, 50);

        assertThat(seen.card().name()).isEqualTo("simulated-four-vehicle-bench");
        assertThat(seen.card().points()).hasSameSizeAs(file.points());
        assertThat(seen.pings().nanos()).hasSize(50 - seen.pings().lost()).isSorted();
        assertThat(seen.clockDoubt()).isEmpty();
        // A line of some 90 bytes each way takes its time at any baud rate.
        assertThat(seen.pings().percentileMs(50)).isGreaterThan(90 * 10 * 1e3 / BAUD);
    }
}
