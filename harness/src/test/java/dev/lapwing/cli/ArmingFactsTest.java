package dev.lapwing.cli;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Calibration;
import dev.lapwing.bench.Input;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.files.BenchFiles;
import dev.lapwing.naming.Signal;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.transport.linked.FarCab;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;

/** What stands beside the checklist before a bench is armed. */
class ArmingFactsTest {
    private static final BenchFile UNDATED = BenchFiles.load(Path.of("bench-config/simulated.yaml"))
            .value()
            .orElseThrow()
            .reached(new LinkChoice.Serial("/dev/ttyACM0", 921_600, 300, 1));
    private static final BenchFile BENCH = dated(UNDATED);

    /** Pressures hold for a year from their calibration, the rest for longer. */
    private static BenchFile dated(BenchFile file) {
        return file.withInputs(file.inputs().stream()
                .map(input -> new Input(
                        input.signal(),
                        input.point(),
                        input.calibration()
                                .map(made -> due(
                                        made, input.signal() instanceof Signal.Pressure ? "2027-09-14" : "2028-01-31")),
                        input.place()))
                .toList());
    }

    private static Calibration due(Calibration made, String due) {
        return new Calibration(
                made.points(), made.standard(), made.drift(), made.noise(), made.date(), due, made.certificate());
    }

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
                .filteredOn(line -> line.startsWith("! The calibration of brake-pipe@1, ")
                        && line.endsWith(" was due on 2027-09-14: what rests on it will be inconclusive."))
                .hasSize(1)
                .noneMatch(line -> line.contains("supply/ep"));
    }

    @Test
    void oneThatWasMadeLaterThanTodayIsNamed() {
        assertThat(on("2000-01-01T00:00:00Z").ofTheFile())
                .anyMatch(line -> line.startsWith("! The calibration of brake-pipe@1, ")
                        && line.endsWith(", but today is 2000-01-01 by this machine's clock: what rests on it will be"
                                + " inconclusive."));
    }

    @Test
    void oneThatStatesNoDateIsNamedAsWell() {
        assertThat(new ArmingFacts(UNDATED, PressureDisplay.PSI, () -> Instant.EPOCH).ofTheFile())
                .filteredOn(line -> line.startsWith("! No date says until when the calibration holds of "))
                .singleElement()
                .asString()
                .contains("brake-pipe@1, ", ", supply/ep");
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
