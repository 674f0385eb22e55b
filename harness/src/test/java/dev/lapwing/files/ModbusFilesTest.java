package dev.lapwing.files;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.bench.LinkChoice.Parity;
import dev.lapwing.bench.Register;
import dev.lapwing.bench.Register.Table;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Which register is what: read as it stands, refused with its place where it cannot be. */
class ModbusFilesTest {
    private static final String GOOD = """
            bench: relay box of the Harrowmere workshop
            link: {modbus: {device: /dev/ttyUSB0, baud: 19200, poll: 80 ms, round-trip: 60 ms}}
            clock: 200 ppm
            calibrations:
              pipe-transducer:
                points: [[0 counts, 0 psi], [4000 counts, 150 psi]]
                uncertainty: 0.10 psi
                drift: 0.05 psi
                noise: 0.05 psi
                date: 2026-10-01
                due: 2027-10-01
                certificate: HLR-CAL-0001 (invented)
            points:
              P1: {kind: analog-in, min: 0 counts, max: 4095 counts, stamp: 1 ms, module: 1, input-register: 3}
              D1: {kind: digital-in, stamp: 1 ms, module: 2, discrete-input: 0}
              R1: {kind: digital-out, safe: 0 counts, module: 2, coil: 5, operate: 9 ms, release: 5 ms, spread: 2 ms}
              V1: {kind: analog-out, min: 0 counts, max: 4095 counts, safe: 0 counts, module: 3, holding-register: 0}
            inputs:
              brake-pipe@1: {point: P1, calibration: pipe-transducer}
              wire/application: {point: D1}
            outputs:
              deadman: {point: R1}
              handle: {point: V1, scale: [[0 degrees, 0 counts], [120 degrees, 4095 counts]]}
            streams:
              pressures: {every: 80 ms, points: [P1]}
            """;

    @TempDir
    private Path folder;

    @Test
    void saysWhichRegisterIsWhat() throws IOException {
        BenchFile bench = text().read(GOOD).value().orElseThrow();
        LinkChoice.Modbus link = (LinkChoice.Modbus) bench.link();
        assertThat(link.baud()).isEqualTo(19_200);
        assertThat(link.parity()).isEqualTo(Parity.EVEN);
        assertThat(link.registers())
                .containsExactly(
                        new Register("P1", 1, Table.INPUT_REGISTER, 3),
                        new Register("D1", 2, Table.DISCRETE_INPUT, 0),
                        new Register("R1", 2, Table.COIL, 5, new Register.Contact(9_000, 5_000, 2_000)),
                        new Register("V1", 3, Table.HOLDING_REGISTER, 0));
    }

    @Test
    void pollAndRoundTripBoundEveryStamp() throws IOException {
        LinkChoice link = text().read(GOOD).value().orElseThrow().link();
        assertThat(link.stampsAtSource()).isFalse();
        assertThat(link.arrivalDoubtUs()).isEqualTo(70_000);
        LinkChoice unsaid = text().read(GOOD.replace(", round-trip: 60 ms", ""))
                .value()
                .orElseThrow()
                .link();
        assertThat(unsaid.arrivalDoubtUs()).isEqualTo(80_000);
    }

    @Test
    void everyMistakeHasItsPlace() throws IOException {
        text().refuses("module: 2, coil: 5", "module: 2", 16, "'coil' is missing: the link is over Modbus");
        text().refuses("module: 2, coil: 5", "module: 248, coil: 5", 16, "'248' is out of range");
        text().refuses("coil: 5", "holding-register: 5", 16, "unknown key 'holding-register'");
        text().refuses("module: 2, coil: 5", "module: 2, coil: 70000", 16, "'70000' is out of range");
        text().refuses("max: 4095 counts, stamp", "max: 70000 counts, stamp", 14, "does not fit into a register");
        text().refuses("every: 80 ms", "every: 50 ms", 25, "polling gives no samples so often");
        text().refuses("poll: 80 ms", "poll: 0 ms", 2, "");
        text().refuses("poll: 80 ms", "poll: 2 s", 2, "out of range");
        text().refuses("baud: 19200", "parity: mark", 2, "unknown parity 'mark'");
        text().refuses("module: 2, discrete-input: 0", "", 15, "'module' is missing");
        text().refuses("kind: digital-out, safe: 0 counts", "kind: pwm-out, min: 0 counts, max: 9 counts", 16, "");
    }

    @Test
    void aLineThatCannotCarryItIsRefusedWithTheLeastThatItCan() throws IOException {
        text().refuses(
                        "poll: 80 ms",
                        "poll: 20 ms",
                        2,
                        "reading everything and one order of outputs takes 37.9 ms at 19200");
        text().refuses(
                        "round-trip: 60 ms",
                        "round-trip: 10 ms",
                        2,
                        "the longest reading and an order before it takes 23.8 ms");
        text().refuses("baud: 19200, poll: 80 ms", "baud: 1200, poll: 80 ms", 2, "at 1200 baud");
    }

    @Test
    void aRelaysTimeAndItsDoubtEnterTheInstantAtWhichItIsDriven() throws IOException {
        LinkChoice.Modbus link =
                (LinkChoice.Modbus) text().read(GOOD).value().orElseThrow().link();
        assertThat(link.contactsLateUs(Map.of("R1", 1))).isEqualTo(9_000);
        assertThat(link.contactsLateUs(Map.of("R1", 0))).isEqualTo(5_000);
        assertThat(link.driveDoubtUs(Map.of("R1", 1))).isEqualTo(30_000 + 2_000);
        assertThat(link.driveDoubtUs(Map.of("V1", 7))).isEqualTo(30_000);
        // From 0 ms, when V1 follows, to 11 ms, when R1 does at the latest: 5.5 ms to either side of the middle.
        assertThat(link.contactsLateUs(Map.of("V1", 7, "R1", 1))).isEqualTo(5_500);
        assertThat(link.driveDoubtUs(Map.of("V1", 7, "R1", 1))).isEqualTo(30_000 + 5_500);
    }

    @Test
    void twoPointsOnOneRegisterAreRefused() throws IOException {
        String two =
                GOOD.replace("  R1:", "  D2: {kind: digital-in, stamp: 1 ms, module: 2, discrete-input: 0}\n  R1:");
        assertThat(text().read(two).mistakes()).anySatisfy(mistake -> {
            assertThat(mistake.place().line()).isEqualTo(16);
            assertThat(mistake.found()).isEqualTo("this discrete-input of module 2 is point 'D1' already");
        });
    }

    @Test
    void registersStandOnNoOtherLink() throws IOException {
        String serial = GOOD.replace(
                "{modbus: {device: /dev/ttyUSB0, baud: 19200, poll: 80 ms, round-trip: 60 ms}}",
                "{serial: {device: /dev/ttyACM0}}");
        assertThat(text().read(serial).mistakes())
                .hasSize(11)
                .allSatisfy(mistake -> assertThat(mistake.found()).endsWith("stands with a link over Modbus alone"));
    }

    private BenchText text() {
        return new BenchText(folder, GOOD);
    }
}
