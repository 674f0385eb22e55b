package dev.lapwing.e2e;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.awaitility.Awaitility.await;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Calibration;
import dev.lapwing.e2e.Shipped.Ended;
import dev.lapwing.files.BenchFiles;
import dev.lapwing.files.FixtureFiles;
import dev.lapwing.fixture.Fixture;
import dev.lapwing.quantity.Unit;
import dev.lapwing.simulated.SimulatedTerminals;
import dev.lapwing.time.MonotonicClock;
import dev.lapwing.transport.linked.ServedBench;
import dev.lapwing.transport.serial.ServedLine;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.function.IntConsumer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;

/** A transducer that is off is calibrated from the first pressure to the file, over a line, by a person who types. */
class CalibrationLinksIT {
    /** By how much it reads too high at every pressure, in counts. */
    private static final int OFF = 100;

    private static final String TAKEN = "the calibration in force reads";
    private static final int TIMES_MAX = 20;
    private static final LocalDate DUE = LocalDate.now(ZoneOffset.UTC).plusYears(1);

    @TempDir
    private Path folder;

    private static Fixture unit() {
        return FixtureFiles.load(Path.of("fixtures/classic.yaml")).value().orElseThrow();
    }

    @Test
    @Execution(ExecutionMode.CONCURRENT)
    void overASerialLine() throws Exception {
        BenchFile simulated =
                BenchFiles.load(Path.of("bench-config/simulated.yaml")).value().orElseThrow();
        SimulatedTerminals terminals = SimulatedTerminals.open(simulated, unit().wiring(), unit().simulation(), 1);
        AppliedCounts points = new AppliedCounts(terminals, "BP1");
        ServedLine line = ServedLine.open(921_600);
        try (ServedBench served =
                new ServedBench(terminals.card("c0ffee01"), points, line, 1, MonotonicClock.system())) {
            served.start();
            Path bench = Shipped.served(folder, "serial: {device: " + line.device() + ", beat: 500 ms}");

            isPutRight(bench, "brake-pipe@1", "150 psi", new int[] {2_000, 62_000}, points::apply);
            assertThat(served.armed()).isFalse();
        }
    }

    @Test
    @Execution(ExecutionMode.CONCURRENT)
    void overModbus() throws Exception {
        String text = Files.readString(Path.of("bench-config/modbus-modules.yaml"), UTF_8)
                .replace("parity: even", "parity: none")
                .replace("poll: 50 ms", "poll: 200 ms")
                .replace("round-trip: 30 ms", "round-trip: 400 ms")
                .replace("every: 50 ms", "every: 200 ms");
        Path bench = Files.writeString(folder.resolve("modules.yaml"), text, UTF_8);
        try (TrainModules modules =
                TrainModules.open(BenchFiles.load(bench).value().orElseThrow(), unit(), 1)) {
            Files.writeString(bench, text.replace("/dev/ttyUSB0", modules.device()), UTF_8);

            isPutRight(bench, "brake-cylinder@1", "100 psi", new int[] {4_000, 20_000}, modules::apply);
        }
    }

    /** @param counts as the file has them so far, at 0 psi and at full scale */
    private void isPutRight(Path bench, String signal, String fullScale, int[] counts, IntConsumer apply)
            throws Exception {
        String before = Files.readString(bench, UTF_8);
        Typist typist = Typist.at("bench", "calibrate", bench, "--signal", signal);
        for (boolean full : new boolean[] {false, true, false}) {
            apply.accept(counts[full ? 1 : 0] + OFF);
            await("it rests").pollDelay(Duration.ofSeconds(1)).until(() -> true);
            applied(typist, full ? fullScale : "0 psi");
        }
        typist.types("done", "line", "0.1 psi", "HLR-REF-3", DUE.toString(), "T. Night", "write");
        Ended ended = typist.ended();

        assertThat(ended.exit()).as(ended.out() + ended.err()).isZero();
        assertThat(ended.out())
                .contains("Residuals, as read less as applied", "reference: 0.05", "Written to " + bench);
        Calibration made = BenchFiles.load(bench).value().orElseThrow().inputs().stream()
                .filter(input -> input.signal().key().equals(signal))
                .findFirst()
                .flatMap(input -> input.calibration())
                .orElseThrow();
        assertThat(made.value(counts[0] + OFF)).isCloseTo(0, within(Unit.PSI.toBase(0.02)));
        assertThat(made.counts(0)).isCloseTo(counts[0] + OFF, within(3.0));
        assertThat(Files.readString(bench, UTF_8)).contains("T. Night", "HLR-REF-3", DUE.toString());
        assertThat(Files.readString(bench.resolveSibling(bench.getFileName() + ".previous"), UTF_8))
                .isEqualTo(before);
    }

    /** A machine that stands still loses samples, and no reading is taken then: it is typed again, as is said there. */
    private static void applied(Typist typist, String value) throws Exception {
        String said = "";
        for (int i = 0; i < TIMES_MAX && !said.contains(TAKEN); i++) {
            typist.types(value);
            said = typist.until(TAKEN, "Not taken");
        }
        assertThat(said).contains(TAKEN);
    }
}
