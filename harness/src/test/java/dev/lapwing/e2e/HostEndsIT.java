package dev.lapwing.e2e;

import static dev.lapwing.Patience.await;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.NeedsTools;
import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.e2e.Shipped.Ended;
import dev.lapwing.evidence.Integrity;
import dev.lapwing.evidence.RunRecord;
import dev.lapwing.evidence.UnreadableRecord;
import dev.lapwing.files.BenchFiles;
import dev.lapwing.finding.Verdict;
import dev.lapwing.time.MonotonicClock;
import dev.lapwing.transport.modbus.ModbusBench;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.NoSuchElementException;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The shipped host in the middle of a run, over each link: killed, stopped, or unable to write any more. */
class HostEndsIT {
    private static final Path SEQUENCE = Path.of("harness/src/test/resources/linked/far-cab-timed.yaml");
    /** A machine that stands still for longer than the heartbeat limit loses the bench, as it must. */
    private static final int HOSTS_MAX = 3;

    @TempDir
    private Path folder;

    private Process host;
    private Path records;

    @AfterEach
    void stop() {
        host.destroyForcibly();
    }

    @Test
    @Execution(ExecutionMode.CONCURRENT)
    void aHostKilledOverASerialLineLeavesASafeBench() throws Exception {
        killedLeavesItSafe(RealLink.SERIAL);

        Ended judged = Shipped.lapwing("judge", "--plain", session());
        assertThat(judged.exit()).as(judged.out() + judged.err()).isEqualTo(3);
        assertThat(judged.out()).contains("so look at the bench", "the run was not finished");
    }

    @Test
    @Execution(ExecutionMode.CONCURRENT)
    @NeedsTools({"mosquitto"})
    void aHostKilledOverABrokerLeavesASafeBench() throws Exception {
        killedLeavesItSafe(RealLink.BROKER);
    }

    /** Modules hear of no death: that is why such a bench needs a hard-wired watchdog, and is said before arming. */
    @Test
    @Execution(ExecutionMode.CONCURRENT)
    void modulesOfAKilledHostStayDrivenUntilTheNextOneOpensThem() throws Exception {
        try (FarBench far = FarBench.at(RealLink.MODBUS, folder)) {
            drives(far);
            kill();
            assertThat(far.live().getAsBoolean()).isTrue();

            BenchFile file = BenchFiles.load(far.file()).value().orElseThrow();
            LinkChoice.Modbus link = (LinkChoice.Modbus) file.link();
            try (Bench next = ModbusBench.open(file, link, "c0ffee02", 200, MonotonicClock.system())) {
                next.watch();
                assertThat(far.live().getAsBoolean()).isFalse();
            }
        }
        assertReadsBack(Integrity.State.CUT);
    }

    @Test
    @Execution(ExecutionMode.CONCURRENT)
    @NeedsTools({"prlimit"})
    void aFullDiskOverASerialLineEndsInASafeBench() throws Exception {
        fullDiskEndsSafe(RealLink.SERIAL);
    }

    @Test
    @Execution(ExecutionMode.CONCURRENT)
    @NeedsTools({"prlimit", "mosquitto"})
    void aFullDiskOverABrokerEndsInASafeBench() throws Exception {
        fullDiskEndsSafe(RealLink.BROKER);
    }

    @Test
    @Execution(ExecutionMode.CONCURRENT)
    @NeedsTools({"prlimit"})
    void aFullDiskOverModbusEndsInSafeModules() throws Exception {
        fullDiskEndsSafe(RealLink.MODBUS);
    }

    @ParameterizedTest
    @Execution(ExecutionMode.CONCURRENT)
    @ValueSource(strings = {"INT", "TERM", "HUP"})
    void aStopSignalEndsInATidyBenchThatIsSafeAndARecordThatReadsBack(String signal) throws Exception {
        try (FarBench far = FarBench.at(RealLink.SERIAL, folder)) {
            drives(far);
            Process kill = new ProcessBuilder("kill", "-" + signal, String.valueOf(host.pid())).start();
            assertThat(kill.waitFor(1, TimeUnit.MINUTES)).isTrue();
            Ended ended = Shipped.ended(host);

            assertThat(far.live().getAsBoolean()).isFalse();
            assertThat(ended.exit()).as(ended.out() + ended.err()).isEqualTo(3);
            assertThat(ended.err()).contains("tidying up, then the bench is made safe");
        }
        assertReadsBack(Integrity.State.WHOLE);
    }

    private void killedLeavesItSafe(RealLink link) throws Exception {
        try (FarBench far = FarBench.at(link, folder)) {
            drives(far);
            kill();

            far.watched().orElseThrow().endsSafe();
        }
        assertReadsBack(Integrity.State.CUT);
    }

    private void kill() throws InterruptedException {
        assertThat(host.destroyForcibly().waitFor(1, TimeUnit.MINUTES)).isTrue();
    }

    /** A limit on the size of the host's files, from the middle of its run on, is a disk that is full then. */
    private void fullDiskEndsSafe(RealLink link) throws Exception {
        try (FarBench far = FarBench.at(link, folder)) {
            drives(far);
            Process full =
                    new ProcessBuilder("prlimit", "--fsize=100:100", "--pid", String.valueOf(host.pid())).start();
            assertThat(full.waitFor(1, TimeUnit.MINUTES)).isTrue();
            assertThat(full.exitValue()).isZero();
            Ended ended = Shipped.ended(host);

            assertThat(far.live().getAsBoolean()).isFalse();
            assertThat(ended.exit()).as(ended.out() + ended.err()).isEqualTo(3);
            assertThat(ended.err())
                    .contains(
                            "the run record cannot be written",
                            "the bench was told to make itself safe",
                            "Make room there");
        }
        assertReadsBack(Integrity.State.CUT);
    }

    private void drives(FarBench far) throws Exception {
        for (int left = HOSTS_MAX - 1; ; left--) {
            records = folder.resolve("records-" + left);
            host = Shipped.startHearingCtrlC(
                    "run", "--plain", "--bench", far.file(), "--armed-by", "T. Night", "--records", records, SEQUENCE);
            await("the host drives and records").until(() -> drives(far, host) || !host.isAlive());
            if (host.isAlive()) {
                return;
            }
            Ended ended = Shipped.ended(host);
            assertThat(left).as(ended.out() + ended.err()).isPositive();
        }
    }

    private boolean drives(FarBench far, Process by) throws Exception {
        try {
            return by.isAlive()
                    && far.live().getAsBoolean()
                    && Files.exists(records)
                    && ShippedRecords.one(records).samples() > 0;
        } catch (UnreadableRecord | NoSuchElementException e) {
            return false;
        }
    }

    private void assertReadsBack(Integrity.State state) throws Exception {
        RunRecord record = ShippedRecords.one(records);
        assertThat(record.integrity().state()).isEqualTo(state);
        assertThat(record.verdict()).isEqualTo(Verdict.ERROR);
        assertThat(record.samples()).isPositive();
    }

    private Path session() throws IOException {
        try (Stream<Path> inside = Files.list(records)) {
            return inside.filter(Files::isDirectory).findFirst().orElseThrow();
        }
    }
}
