package dev.lapwing.e2e;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.e2e.Shipped.Ended;
import dev.lapwing.evidence.RunRecord;
import dev.lapwing.files.BenchFiles;
import dev.lapwing.files.FixtureFiles;
import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Verdict;
import dev.lapwing.fixture.Fixture;
import dev.lapwing.uncertainty.Estimate;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;

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

    /**
     * Polls seldom and waits long for answers, for a machine that has other things to do. Pseudo-terminals know no
     * parity.
     */
    @BeforeEach
    void serve() throws Exception {
        text = Files.readString(SHIPPED, UTF_8)
                .replace("parity: even", "parity: none")
                .replace("poll: 50 ms", "poll: 200 ms")
                .replace("round-trip: 30 ms", "round-trip: 400 ms")
                .replace("every: 50 ms", "every: 200 ms")
                // On whatever day this runs.
                .replaceAll("\n *due: .*", "");
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
        Ended ended = Shipped.lapwing(
                "run",
                "--plain",
                "--bench",
                bench,
                "--armed-by",
                "T. Night",
                "--records",
                folder.resolve("real"),
                SEQUENCE);
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
        Ended shown = Shipped.lapwing("bench", "show", bench, "--pings", 5);

        assertThat(shown.exit()).as(shown.err()).isZero();
        assertThat(shown.out())
                .contains("relay box of the Harrowmere workshop", "outputs keep their last state", "5; 0 lost")
                .containsPattern("BC4 +analog-in +0 to 20480 counts +module 1, input-register 3")
                .containsPattern("R1 +digital-out +module 3, coil 0 +safe 0");

        Ended heard = Shipped.lapwing("bench", "listen", bench, "--for", "12s", "--plain");

        assertThat(heard.exit()).as(heard.err()).isZero();
        assertThat(heard.out())
                .containsPattern("brake-cylinder@4 +BC4 +-?[0-9.]+ psi")
                .containsPattern("wire/application +D1 +off");
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
        Map<String, Finding> dry = findings("dry");

        assertThat(dry).hasSameSizeAs(real);
        dry.forEach((id, finding) -> {
            assertThat(real.get(id).measured().isPresent())
                    .as(id)
                    .isEqualTo(finding.measured().isPresent());
            if (finding.measured().isEmpty()) {
                return;
            }
            Estimate there = finding.measured().get();
            Estimate here = real.get(id).measured().orElseThrow();
            double doubt = Math.hypot(there.expanded(), here.expanded());
            assertThat(Math.abs(there.value() - here.value())).as(id).isLessThanOrEqualTo(doubt);
        });
    }

    private Map<String, Finding> findings(String records) throws Exception {
        Path record;
        try (Stream<Path> found = Files.walk(folder.resolve(records))) {
            record = found.filter(Files::isRegularFile)
                    .map(Path::getParent)
                    .filter(ModbusModulesIT::isRecord)
                    .findFirst()
                    .orElseThrow();
        }
        return RunRecord.open(record).findings().stream().collect(Collectors.toMap(Finding::id, Function.identity()));
    }

    private static boolean isRecord(Path directory) {
        try (Stream<Path> files = Files.list(directory)) {
            return files.anyMatch(file -> file.getFileName().toString().startsWith("run"));
        } catch (IOException e) {
            return false;
        }
    }
}
