package dev.lapwing.e2e;

import static dev.lapwing.Patience.await;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.e2e.Shipped.Ended;
import dev.lapwing.files.BenchFiles;
import dev.lapwing.files.FixtureFiles;
import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Verdict;
import dev.lapwing.fixture.Fixture;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The shipped Modbus bench: its modules are another library's, at the other end of a line and before a train. */
class ModbusModulesIT {
    private static final Path SHIPPED = Path.of("bench-config/modbus-modules.yaml");
    private static final Path SEQUENCE = Path.of("harness/src/test/resources/linked/far-cab-timed.yaml");
    private static final int SEED = 7;

    @TempDir
    private Path folder;

    private TrainModules modules;
    private String text;
    private Path bench;

    @BeforeEach
    void serve() throws Exception {
        text = TrainModules.patient(Files.readString(SHIPPED, UTF_8));
        bench = folder.resolve("modules.yaml");
        BenchFile file =
                BenchFiles.load(Files.writeString(bench, text, UTF_8)).value().orElseThrow();
        Fixture fixture =
                FixtureFiles.load(Path.of("fixtures/classic.yaml")).value().orElseThrow();
        modules = TrainModules.open(file, fixture, SEED);
        Files.writeString(bench, text.replace("/dev/ttyUSB0", modules.device()), UTF_8);
    }

    @AfterEach
    void stop() {
        modules.close();
    }

    @Test
    @Execution(ExecutionMode.CONCURRENT)
    void timesThatPollingKnowsWellEnoughPassAndOthersAreInconclusive() throws Exception {
        Ended ended = Shipped.run(bench, folder.resolve("real"), SEQUENCE);
        Map<String, Finding> real = findings("real");

        assertThat(ended.out()).contains("keeps its last state", "hard-wired");
        assertThat(real.get("cylinder-fills").verdict()).as(ended.out()).isEqualTo(Verdict.PASS);
        assertThat(real.get("wire-follows").verdict()).isEqualTo(Verdict.PASS);
        assertThat(real.get("full-brake@4").verdict()).isEqualTo(Verdict.PASS);
        Finding tight = real.get("first-response");
        assertThat(tight.verdict()).as(tight.because()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(tight.because()).contains("arrival of BC4");
        assertThat(ended.exit()).isEqualTo(2);

        agreeWithTheSimulatedRun(real);
    }

    @Test
    @Execution(ExecutionMode.CONCURRENT)
    void theModulesAreShownAndListenedTo() throws Exception {
        Ended shown = Shipped.shown(bench, "--pings", 5);

        assertThat(shown.exit()).as(shown.err()).isZero();
        assertThat(shown.out())
                .contains("relay box of the Harrowmere workshop", "outputs keep their last state", "5 pings; 0 lost")
                .containsPattern("BC4 +analog-in +0 to 20480 counts +module 1, input-register 3")
                .containsPattern("R1 +digital-out +module 3, coil 0 +safe off");

        Ended heard = Shipped.lapwing("bench", "listen", bench, "--for", "4s", "--plain");

        assertThat(heard.exit()).as(heard.err()).isZero();
        assertThat(heard.out())
                .containsPattern("brake-cylinder@4 +BC4 +-?[0-9.]+ psi")
                .containsPattern("wire/application +D1 +off");
    }

    @Test
    @Execution(ExecutionMode.CONCURRENT)
    void outputsAreExercisedAndCtrlCLeavesEverythingSafe() throws Exception {
        Ended exercised = Typist.typing(
                List.of("T. Night", "arm", "", "y"), "bench", "exercise", bench, "--output", "wire-feed/application");

        assertThat(exercised.out())
                .as(exercised.err())
                .contains("keeps its last state", "Confirmed:     1: wire-feed/application")
                .containsPattern("wire/application on D1: off → on");
        assertThat(exercised.exit()).isZero();

        Typist exercise = Typist.at("bench", "exercise", bench, "--output", "supply/ep");
        exercise.types("T. Night", "arm", "");
        String said = exercise.until("Read back");
        exercise.signals("INT");
        Ended stopped = exercise.ended();

        assertThat(said).contains("V1");
        assertThat(stopped.out()).contains("The bench is safe.", "Left out:      1: supply/ep");
        assertThat(modules.count("V1")).isZero();
    }

    @ParameterizedTest
    @ValueSource(strings = {"INT", "TERM", "HUP"})
    @Execution(ExecutionMode.CONCURRENT)
    void aStopSignalLeavesEverythingSafe(String signal) throws Exception {
        Typist run =
                Typist.at("run", "--plain", "--bench", bench, "--armed-by", "T. Night", "--records", folder, SEQUENCE);
        await("a relay is driven").until(() -> modules.count("R1") == 1);
        run.signals(signal);
        Ended ended = run.ended();

        assertThat(ended.exit()).as(ended.out() + ended.err()).isEqualTo(3);
        assertThat(modules.live()).isFalse();
    }

    private void agreeWithTheSimulatedRun(Map<String, Finding> real) throws Exception {
        Path simulated = folder.resolve("simulated.yaml");
        Files.writeString(
                simulated,
                text.replaceFirst("link:\\n  modbus:\\n(    .*\\n)+", """
                                link: {simulated: {step: 1 ms, command-delay: 200 us, transducer-error: 0.04 %,
                                  transducer-noise: 0.02 %, clock-error: 10 ppm}}
                                """)
                        .replaceAll(", operate: 8 ms, release: 4 ms, spread: 3 ms", "")
                        .replaceAll(", module: \\d, [a-z-]+: \\d}", "}"),
                UTF_8);
        Shipped.lapwing(
                "run", "--plain", "--bench", simulated, "--seed", SEED, "--records", folder.resolve("dry"), SEQUENCE);
        ShippedRecords.assertAgree(real, findings("dry"));
    }

    private Map<String, Finding> findings(String records) throws Exception {
        return ShippedRecords.findings(folder.resolve(records));
    }
}
