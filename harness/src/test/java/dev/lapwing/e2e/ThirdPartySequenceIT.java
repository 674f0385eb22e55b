package dev.lapwing.e2e;

import static dev.lapwing.Patience.await;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.NeedsTools;
import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.evidence.RunRecord;
import dev.lapwing.finding.Verdict;
import dev.lapwing.run.Progress;
import dev.lapwing.time.MonotonicClock;
import dev.lapwing.transport.linked.FarCab;
import dev.lapwing.transport.serial.SerialBench;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A sequence through the reference bench in C, with the simulated train and unit behind it. */
@NeedsTools({"make", "cc", "nm"})
class ThirdPartySequenceIT {
    private static final int SPEED = 1;
    private static final int BEAT_MS = 500;
    /** What the bench may add to the heartbeat limit itself. */
    private static final long SLACK_US = 5_000;
    /** By then the bench has taken everything that a host had said. */
    private static final int STRETCHES = 10;

    private static final int HOSTS_MAX = 3;

    private static final Path UNIT = Path.of("fixtures/classic.yaml");

    @TempDir
    private Path folder;

    private ReferenceBench bench;

    @BeforeAll
    static void build() throws IOException, InterruptedException {
        ReferenceBench.build();
    }

    @BeforeEach
    void start() throws IOException {
        bench = ReferenceBench.start(
                "simulated.points", "--world-elsewhere", "--tick-us", "1000", "--speed", String.valueOf(SPEED));
    }

    @Test
    void itsVerdictsAndQuantitiesAreThoseOfTheSimulatedRun() throws Exception {
        BenchFile file = FarCab.reached(new LinkChoice.Serial(bench.device(), LinkChoice.BAUD_DEFAULT, BEAT_MS, SPEED));
        RunRecord linked;
        try (TrainElsewhere train = TrainElsewhere.start(bench, UNIT, FarCab.SEED);
                Bench serial = SerialBench.open(
                        file, (LinkChoice.Serial) file.link(), FarCab.host(1), MonotonicClock.system())) {
            linked = FarCab.on(serial, file, folder.resolve("serial"), Progress.NONE);
            assertThat(train.failed()).isEmpty();
        }
        RunRecord simulated;
        try (Bench inThisProcess = FarCab.simulated()) {
            simulated = FarCab.on(inThisProcess, FarCab.IN_THIS_PROCESS, folder.resolve("simulated"), Progress.NONE);
        }

        assertThat(linked.course().troubles()).isEmpty();
        assertThat(linked.verdict()).isEqualTo(Verdict.PASS);
        FarCab.assertAgrees(linked, simulated);
    }

    @Test
    void aHostThatIsKilledLeavesEveryOutputSafeWithinTheBeatLimit() throws Exception {
        Path file = Files.writeString(
                folder.resolve("killed.yaml"),
                Files.readString(Path.of("bench-config/simulated.yaml"))
                        .replaceFirst(
                                "(?s)link:\\n.*?\\n\\n",
                                "link:\n  serial: {device: " + bench.device() + ", beat: " + BEAT_MS + " ms, speed: "
                                        + SPEED + " times}\n\n"));
        try (TrainElsewhere train = TrainElsewhere.start(bench, UNIT, FarCab.SEED)) {
            Process host = drivingHost(file, train);
            host.destroyForcibly().waitFor();
            long stretches = train.stretches();
            await("nothing of the host's is left on the line").until(() -> train.stretches() >= stretches + STRETCHES);
            long silentUs = train.nowUs();
            await("the bench misses the heartbeat").until(() -> train.safeSinceUs() >= 0);
            assertThat(train.safeSinceUs() - silentUs).isLessThanOrEqualTo(BEAT_MS * 1_000L + SLACK_US);
        }
    }

    /** A host that drives outputs; begun again where a slow machine has cut it short before that. */
    private Process drivingHost(Path benchFile, TrainElsewhere train) throws IOException {
        Process host = startRun(benchFile);
        for (int left = HOSTS_MAX - 1; ; left--) {
            Process now = host;
            await("outputs are driven").until(() -> train.safeSinceUs() < 0 || !now.isAlive());
            if (host.isAlive()) {
                return host;
            }
            assertThat(left).as(Files.readString(said())).isPositive();
            host = startRun(benchFile);
        }
    }

    private Path said() {
        return folder.resolve("said.txt");
    }

    private Process startRun(Path benchFile) throws IOException {
        return new ProcessBuilder(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-cp",
                        System.getProperty("java.class.path"),
                        "-Dlapwing.home=" + Path.of("").toAbsolutePath(),
                        "dev.lapwing.cli.Lapwing",
                        "run",
                        "--plain",
                        "--records",
                        folder.resolve("records").toString(),
                        "--bench",
                        benchFile.toString(),
                        "--armed-by",
                        "the tests",
                        "sequences/overhaul/12-crew-ep-test.yaml")
                .redirectErrorStream(true)
                .redirectOutput(said().toFile())
                .start();
    }
}
