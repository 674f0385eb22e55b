package dev.lapwing.e2e;

import static dev.lapwing.Patience.await;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lapwing.NeedsTools;
import dev.lapwing.bench.Calibration;
import dev.lapwing.e2e.FarBench.Transducer;
import dev.lapwing.e2e.Shipped.Ended;
import dev.lapwing.files.BenchFiles;
import dev.lapwing.quantity.Unit;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.LocalDate;
import java.time.ZoneOffset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;

/** A transducer that is off is calibrated from the first pressure to the file, over each link, by one who types. */
class CalibrationLinksIT {
    /** By how much it reads too high at every pressure, in counts. */
    private static final int OFF = 100;

    private static final String TAKEN = "the calibration in force reads";
    private static final int TIMES_MAX = 20;
    private static final LocalDate DUE = LocalDate.now(ZoneOffset.UTC).plusYears(1);

    @TempDir
    private Path folder;

    @Test
    @Execution(ExecutionMode.CONCURRENT)
    void overASerialLine() throws Exception {
        isPutRight(RealLink.SERIAL);
    }

    @Test
    @Execution(ExecutionMode.CONCURRENT)
    @NeedsTools({"mosquitto"})
    void overABroker() throws Exception {
        isPutRight(RealLink.BROKER);
    }

    @Test
    @Execution(ExecutionMode.CONCURRENT)
    void overModbus() throws Exception {
        isPutRight(RealLink.MODBUS);
    }

    private void isPutRight(RealLink link) throws Exception {
        try (FarBench bench = FarBench.at(link, folder)) {
            isPutRight(bench);

            assertThat(bench.live().getAsBoolean()).isFalse();
        }
    }

    private static void isPutRight(FarBench bench) throws Exception {
        Transducer transducer = bench.transducer();
        String before = Files.readString(bench.file(), UTF_8);
        Typist typist = Typist.at("bench", "calibrate", bench.file(), "--signal", transducer.signal());
        for (boolean full : new boolean[] {false, true, false}) {
            bench.apply().accept(transducer.counts().get(full ? 1 : 0) + OFF);
            await("it rests").pollDelay(Duration.ofSeconds(1)).until(() -> true);
            applied(typist, full ? transducer.fullScale() : "0 psi");
        }
        typist.types("done", "line", "0.1 psi", "HLR-REF-3", DUE.toString(), "T. Night", "write");
        Ended ended = typist.ended();

        assertThat(ended.exit()).as(ended.out() + ended.err()).isZero();
        assertThat(ended.out())
                .contains("Residuals, as read less as applied", "reference: 0.05", "Written to " + bench.file());
        reads(bench.file(), transducer);
        assertThat(Files.readString(bench.file(), UTF_8)).contains("T. Night", "HLR-REF-3", DUE.toString());
        assertThat(Files.readString(bench.file().resolveSibling(bench.file().getFileName() + ".previous"), UTF_8))
                .isEqualTo(before);
    }

    private static void reads(Path file, Transducer transducer) {
        Calibration made = BenchFiles.load(file).value().orElseThrow().inputs().stream()
                .filter(input -> input.signal().key().equals(transducer.signal()))
                .findFirst()
                .flatMap(input -> input.calibration())
                .orElseThrow();
        int zero = transducer.counts().get(0) + OFF;
        assertThat(made.value(zero)).isCloseTo(0, within(Unit.PSI.toBase(0.02)));
        assertThat(made.counts(0)).isCloseTo(zero, within(3.0));
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
