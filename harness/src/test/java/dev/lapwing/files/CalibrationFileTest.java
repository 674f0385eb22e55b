package dev.lapwing.files;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Calibration;
import dev.lapwing.quantity.Unit;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class CalibrationFileTest {
    private static final NewCalibration MADE = new NewCalibration(
            List.of(new NewCalibration.Point(2003.504, 0), new NewCalibration.Point(61990.25, Unit.PSI.toBase(150))),
            Unit.PSI,
            Unit.PSI.toBase(0.0871),
            Unit.PSI.toBase(0.1512),
            Unit.PSI.toBase(0.032),
            LocalDate.of(2026, 11, 25),
            LocalDate.of(2027, 11, 25),
            "HLR-CAL-0201: 'deadweight'",
            "J. Miller");

    @TempDir
    private Path folder;

    private Path file;

    @BeforeEach
    void copyTheShippedFile() throws Exception {
        file = folder.resolve("bench.yaml");
        Files.copy(Path.of("bench-config/simulated.yaml"), file);
    }

    @Test
    void aSharedCalibrationIsLeftToTheOthers() throws Exception {
        String before = Files.readString(file);

        assertThat(CalibrationFile.write(file, bench(), "brake-pipe@1", MADE)).isEmpty();

        assertThat(calibration("brake-pipe@1").certificate()).isEqualTo("HLR-CAL-0201: 'deadweight'");
        assertThat(calibration("brake-pipe@1").points().get(0).counts()).isEqualTo(2003.5);
        assertThat(calibration("brake-pipe@2").certificate()).isEqualTo("HLR-CAL-0107 (invented)");
        List<String> changed = new ArrayList<>(Files.readAllLines(file));
        List<String> old = before.lines().toList();
        assertThat(changed).hasSize(old.size() + 10);
        assertThat(changed).contains("  brake-pipe@1: {point: BP1, calibration: brake-pipe-1}");
        changed.removeAll(old);
        assertThat(changed)
                .containsExactly(
                        "  brake-pipe-1:",
                        "    points: [[2003.5 counts, 0 psi], [61990.25 counts, 150 psi]]",
                        "    uncertainty: 0.087 psi",
                        "    noise: 0.032 psi",
                        "    date: 2026-11-25",
                        "    certificate: 'HLR-CAL-0201: ''deadweight'''",
                        "    span: 0.15 psi",
                        "    due: 2027-11-25",
                        "    operator: J. Miller",
                        "  brake-pipe@1: {point: BP1, calibration: brake-pipe-1}");
    }

    @Test
    void aCalibrationOfItsOwnIsPutAnewInItsPlaceAndRemarksStay() throws Exception {
        CalibrationFile.write(file, bench(), "brake-pipe@1", MADE);
        String once = Files.readString(file)
                .replace("    uncertainty: 0.087 psi", "    uncertainty: 0.087 psi  # größer im Winter ☃");
        Files.writeString(file, once);
        NewCalibration again = new NewCalibration(
                MADE.points(), Unit.BAR, 500, 600, 200, MADE.date(), MADE.due(), "HLR-CAL-0202", "yes");

        assertThat(CalibrationFile.write(file, bench(), "brake-pipe@1", again)).isEmpty();

        String twice = Files.readString(file);
        assertThat(twice.lines().count()).isEqualTo(once.lines().count());
        assertThat(twice)
                .contains("    uncertainty: 0.005 bar  # größer im Winter ☃", "    operator: 'yes'", "HLR-CAL-0202");
        assertThat(Files.readString(folder.resolve("bench.yaml.previous"))).isEqualTo(once);
        assertThat(calibration("brake-pipe@1").standard()).isEqualTo(500);
    }

    @Test
    void pointsInLinesAndWindowsLineEndsAreUnderstood() throws Exception {
        String text = Files.readString(file)
                .replace(
                        "    points: [[2000 counts, 0 degrees], [62000 counts, 120 degrees]]\n",
                        "    points:\n      - [2000 counts, 0 degrees]\n"
                                + "      - [62000 counts, 120 degrees] # far end\n")
                .replace("\n", "\r\n");
        Files.writeString(file, text);
        NewCalibration angle = new NewCalibration(
                List.of(new NewCalibration.Point(2001, 0), new NewCalibration.Point(62003, 120)),
                Unit.DEGREE,
                0.1,
                0.15,
                0.05,
                MADE.date(),
                MADE.due(),
                "HLR-CAL-0203",
                "J. Miller");

        assertThat(CalibrationFile.write(file, bench(), "handle-angle", angle)).isEmpty();

        assertThat(Files.readString(file)).contains("# far end\r\n", "\r\n    operator: J. Miller\r\n");
        assertThat(calibration("handle-angle").points().get(1).counts()).isEqualTo(62003);
    }

    @Test
    void whatWouldBeAMistakeIsNotWritten() throws Exception {
        String before = Files.readString(file);
        NewCalibration beyond = new NewCalibration(
                List.of(new NewCalibration.Point(2000, 0), new NewCalibration.Point(70000, 1e6)),
                Unit.PSI,
                500,
                600,
                200,
                MADE.date(),
                MADE.due(),
                "HLR-CAL-0204",
                "J. Miller");

        assertThat(CalibrationFile.write(file, bench(), "brake-pipe@1", beyond)).isNotEmpty();

        assertThat(Files.readString(file)).isEqualTo(before);
        try (var files = Files.list(folder)) {
            assertThat(files).containsExactly(file);
        }
    }

    @Test
    void aChannelThatSomebodyElseChangedMeanwhileGetsNoCalibrationOfAnother() throws Exception {
        BenchFile was = bench();
        String rewired = Files.readString(file)
                .replace("brake-pipe@1: {point: BP1,", "brake-pipe@1: {point: BPX,")
                .replace("brake-pipe@2: {point: BP2,", "brake-pipe@2: {point: BP1,")
                .replace("brake-pipe@1: {point: BPX,", "brake-pipe@1: {point: BP2,");
        Files.writeString(file, rewired);

        assertThat(CalibrationFile.write(file, was, "brake-pipe@1", MADE))
                .singleElement()
                .asString()
                .contains("somebody else has changed the point or the calibration of 'brake-pipe@1' meanwhile");
        assertThat(Files.readString(file)).isEqualTo(rewired);
    }

    @Test
    void whatSomebodyElseWroteElsewhereMeanwhileStays() throws Exception {
        BenchFile was = bench();
        Files.writeString(file, "# a remark of somebody else\n" + Files.readString(file));

        assertThat(CalibrationFile.write(file, was, "brake-pipe@1", MADE)).isEmpty();

        assertThat(Files.readString(file))
                .startsWith("# a remark of somebody else\n")
                .contains("HLR-CAL-0201");
    }

    @Test
    void aFileThatHasMistakesMeanwhileIsLeftAlone() throws Exception {
        BenchFile was = bench();
        Files.writeString(file, "bench: [half of it");

        assertThat(CalibrationFile.write(file, was, "brake-pipe@1", MADE)).isNotEmpty();

        assertThat(Files.readString(file)).isEqualTo("bench: [half of it");
    }

    @Test
    void aLinkStaysALinkAndWhoMayReadItStays() throws Exception {
        Path link = Files.createSymbolicLink(folder.resolve("link.yaml"), file);
        Set<PosixFilePermission> rights = PosixFilePermissions.fromString("rw-rw-r--");
        Files.setPosixFilePermissions(file, rights);

        assertThat(CalibrationFile.write(link, BenchFiles.load(link).value().orElseThrow(), "brake-pipe@1", MADE))
                .isEmpty();

        assertThat(link).isSymbolicLink();
        assertThat(Files.getPosixFilePermissions(file)).isEqualTo(rights);
        assertThat(calibration("brake-pipe@1").certificate()).contains("HLR-CAL-0201");
    }

    @Test
    void whereTheOldFileCannotBeKeptItIsNotReplaced() throws Exception {
        String before = Files.readString(file);
        Path inTheWay = Files.createDirectories(folder.resolve("bench.yaml.previous/in/the/way"));

        assertThatThrownBy(() -> CalibrationFile.write(file, bench(), "brake-pipe@1", MADE))
                .isInstanceOf(IOException.class);

        assertThat(Files.readString(file)).isEqualTo(before);
        assertThat(inTheWay).exists();
        try (var files = Files.list(folder)) {
            assertThat(files).hasSize(2);
        }
    }

    private BenchFile bench() {
        return BenchFiles.load(file).value().orElseThrow();
    }

    private Calibration calibration(String signal) {
        return bench().inputs().stream()
                .filter(input -> input.signal().key().equals(signal))
                .findFirst()
                .flatMap(input -> input.calibration())
                .orElseThrow();
    }
}
