package dev.lapwing.cli;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.BenchListener;
import dev.lapwing.bench.Calibration;
import dev.lapwing.bench.ForwardingBench;
import dev.lapwing.bench.Input;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.bench.SampleBlock;
import dev.lapwing.bench.SelectiveListener;
import dev.lapwing.files.BenchFiles;
import dev.lapwing.naming.Signal;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.transport.linked.FarCab;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

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
    void whatTheSafeStateDrivesIsNamed(@TempDir Path folder) throws Exception {
        String text = Files.readString(Path.of("bench-config/simulated.yaml"))
                .replace("W1: {kind: digital-out, safe: 0", "W1: {kind: digital-out, safe: 1")
                .replaceFirst("(V-EP: .*safe: )0", "$160000");
        BenchFile live = BenchFiles.load(Files.writeString(folder.resolve("bench.yaml"), text))
                .value()
                .orElseThrow();

        assertThat(new ArmingFacts(live, PressureDisplay.PSI, () -> Instant.EPOCH).ofTheFile())
                .contains("! Made safe it still drives supply/ep at 200 V, deadman at on.");
        assertThat(on("2026-12-01T00:00:00Z").ofTheFile()).noneMatch(line -> line.contains("Made safe"));
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
        ArmingFacts.Told told = on("2026-12-01T00:00:00Z").all(FarCab::simulated);

        assertThat(told.lines()).anyMatch(line -> line.contains("brake-cylinder@1") && line.contains("psi"));
        assertThat(told.implausible()).isEmpty();
    }

    @Test
    void aTransducerAtTheEndOfItsRangeIsNotPlausible() {
        ArmingFacts.Told told = on("2026-12-01T00:00:00Z").all(() -> new Stuck(FarCab.simulated(), "BC1", 0));

        assertThat(told.implausible()).singleElement().asString().startsWith("brake-cylinder@1 reads -3.33 psi");
        assertThat(told.lines())
                .anyMatch(line -> line.contains("brake-cylinder@1") && line.contains("! not plausible"));
    }

    @Test
    void aGaugeThatReadsBelowNothingIsNotPlausible() {
        ArmingFacts.Told told = on("2026-12-01T00:00:00Z").all(() -> new Stuck(FarCab.simulated(), "BC1", 1_000));

        assertThat(told.implausible()).singleElement().asString().endsWith(": below zero, not plausible");
    }

    @Test
    void aBenchThatCannotBeReadSaysWhy() {
        ArmingFacts.Told told = on("2026-12-01T00:00:00Z").all(() -> {
            throw new BenchFailure("nobody answers");
        });

        assertThat(told.lines()).contains("! No readings: nobody answers.");
        assertThat(told.implausible()).containsExactly("there are no readings: nobody answers");
    }

    /** A bench of which one point always gives the same count. */
    private record Stuck(Bench to, String point, int count) implements ForwardingBench {
        @Override
        public void advance(long untilUs, BenchListener listener) throws BenchFailure {
            to.advance(untilUs, (SelectiveSamples) block -> listener.samples(stuck(block)));
        }

        private SampleBlock stuck(SampleBlock block) {
            int wide = block.stream().points().size();
            int at = block.stream().points().indexOf(point);
            int[] counts = block.counts().clone();
            for (int row = 0; at >= 0 && row < block.rows(); row++) {
                counts[row * wide + at] = count;
            }
            return new SampleBlock(block.stream(), block.t0Us(), block.rows(), counts);
        }
    }

    /** Hears samples alone. */
    private interface SelectiveSamples extends SelectiveListener {
        @Override
        void samples(SampleBlock block);
    }
}
