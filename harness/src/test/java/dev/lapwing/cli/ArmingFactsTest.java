package dev.lapwing.cli;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.files.BenchFiles;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.transport.linked.FarCab;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;

/** What stands beside the checklist before a bench is armed. */
class ArmingFactsTest {
    private static final BenchFile BENCH = BenchFiles.load(Path.of("bench-config/simulated.yaml"))
            .value()
            .orElseThrow()
            .reached(new LinkChoice.Serial("/dev/ttyACM0", 921_600, 300, 1));

    private static ArmingFacts on(String instant) {
        return new ArmingFacts(BENCH, PressureDisplay.PSI, () -> Instant.parse(instant));
    }

    @Test
    void whatIsInDateAndLimitedIsSaid() {
        assertThat(on("2026-12-01T00:00:00Z").ofTheFile())
                .contains("Every calibration is in date.")
                .anyMatch(line -> line.contains("brake-pipe@1 at most 100.0"));
    }

    @Test
    void eachCalibrationThatIsOverdueIsNamed() {
        assertThat(on("2027-09-15T00:00:00Z").ofTheFile())
                .contains("! The calibration of brake-pipe@1 was due on 2027-09-14.")
                .noneMatch(line -> line.contains("supply/ep"));
    }

    @Test
    void whatTheBenchReadsIsShown() {
        List<String> lines = on("2026-12-01T00:00:00Z").readings(FarCab::simulated);

        assertThat(lines).anyMatch(line -> line.contains("brake-cylinder@1") && line.contains("psi"));
        assertThat(lines).noneMatch(line -> line.contains("not plausible"));
    }

    @Test
    void aBenchThatCannotBeReadSaysWhy() {
        assertThat(on("2026-12-01T00:00:00Z").readings(() -> {
                    throw new BenchFailure("nobody answers");
                }))
                .containsExactly("! No readings: nobody answers.");
    }
}
