package dev.lapwing.files;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.bench.SafetyLimit;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Safety limits and the files of a broker in a bench file: read as they stand, refused with their place. */
class LimitFilesTest {
    private static final String GOOD = """
            bench: bay 2 of the Harrowmere workshop
            link: {mqtt: {broker: "ssl://bay:8883", name: bay-2, credentials: secret/bay.txt, authority: ca.pem}}
            clock: 20 ppm
            calibrations:
              pipe-transducer:
                points: [[500 counts, 0 psi], [3500 counts, 150 psi]]
                uncertainty: 0.10 psi
                drift: 0.05 psi
                noise: 0.05 psi
                date: 2026-10-01
                due: 2027-10-01
                certificate: HLR-CAL-0001 (invented)
            points:
              P1: {kind: analog-in, min: 0 counts, max: 4095 counts, stamp: 20 us}
              D1: {kind: digital-in, stamp: 10 us}
              R1: {kind: digital-out, safe: 0 counts}
            inputs:
              brake-pipe@1: {point: P1, calibration: pipe-transducer}
              wire/application: {point: D1}
            limits:
              brake-pipe@1: {at-most: 120.02 psi, at-least: -10.03 psi}
            outputs:
              deadman: {point: R1}
            streams:
              pressures: {every: 10 ms, points: [P1]}
            """;

    private static final String LIMIT = "{at-most: 120.02 psi, at-least: -10.03 psi}";

    @TempDir
    private Path folder;

    @Test
    void aLimitIsTheCountJustInsideIt() throws IOException {
        BenchFile bench = text().read(GOOD).value().orElseThrow();
        SafetyLimit limit = bench.limits().get(0);
        assertThat(limit.point()).isEqualTo("P1");
        assertThat(limit.most()).isEqualTo(Optional.of(2900));
        assertThat(limit.lowest()).isEqualTo(Optional.of(300));
    }

    @Test
    void oneSideIsEnough() throws IOException {
        BenchFile bench = text().read(GOOD.replace(LIMIT, "{at-most: 120.02 psi}"))
                .value()
                .orElseThrow();
        assertThat(bench.limits().get(0).lowest()).isEmpty();
    }

    @Test
    void everyMistakeHasItsPlace() throws IOException {
        text().refuses(LIMIT, "{}", 21, "an empty map stands here");
        text().refuses(LIMIT, "{at-most: 120 V}", 21, "'120 V' is a voltage");
        text().refuses(LIMIT, "{at-most: 200 psi}", 21, "no reading of point 'P1' goes beyond");
        text().refuses(LIMIT, "{at-most: 20 psi, at-least: 20 psi}", 21, "not above the lower one");
        text().refuses("  brake-pipe@1: {at-most", "  brake-pipe@2: {at-most", 21, "unknown input 'brake-pipe@2'");
        text().refuses(
                        "  brake-pipe@1: {at-most",
                        "  wire/application: {at-most",
                        21,
                        "'wire/application' is on or off");
        text().refuses(
                        "ssl://bay:8883",
                        "tcp://bay:1883",
                        2,
                        "'authority' stands with a broker that is reached without TLS");
    }

    @Test
    void modulesThatHoldNoLimitAreGivenNone() throws IOException {
        String modbus = GOOD.replaceFirst("link: .*", "link: {modbus: {device: /dev/ttyUSB0, poll: 10 ms}}");
        assertThat(text().read(modbus).mistakes())
                .anySatisfy(mistake -> assertThat(mistake.toString()).contains("Modbus modules hold no limits"));
    }

    @Test
    void filesOfABrokerAreNamedFromTheBenchFile() throws IOException {
        LinkChoice.Mqtt link =
                (LinkChoice.Mqtt) text().read(GOOD).value().orElseThrow().link();
        assertThat(link.files().credentials())
                .contains(folder.resolve("secret/bay.txt").toString());
        assertThat(link.files().authority()).contains(folder.resolve("ca.pem").toString());
    }

    private BenchText text() {
        return new BenchText(folder, GOOD);
    }
}
