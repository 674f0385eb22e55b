package dev.lapwing.e2e;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.NeedsTools;
import dev.lapwing.e2e.Shipped.Ended;
import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Verdict;
import dev.lapwing.transport.mqtt.Mosquitto;
import dev.lapwing.uncertainty.Component;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;

/**
 * The shipped bench with twin transducers over real links, its twin and the rearmost cylinder at the ends of long
 * tubes: the twins agree while the cylinder fills, and times at the rear are those of the simulated run. Left in, the
 * delay of either tube would be found by the one or the other.
 */
class TwinLinksIT {
    private static final Path SEQUENCE = Path.of("harness/src/test/resources/linked/far-cab-timed.yaml");
    private static final int SEED = 7;
    private static final int SPEED = 2;

    @TempDir
    private Path folder;

    /** The shipped file, with train wires that can be fed, and with tubes. */
    private Path simulated;

    private String text;

    @BeforeEach
    void tubes() throws Exception {
        text = Files.readString(Path.of("bench-config/twin-transducers.yaml"), UTF_8)
                .replace("  W4: {kind: digital-out, safe: 0 counts}\n", """
                          W4: {kind: digital-out, safe: 0 counts}
                          W5: {kind: digital-out, safe: 0 counts}
                          W6: {kind: digital-out, safe: 0 counts}
                        """)
                .replace("  reverser/reverse: {point: W4}\n", """
                          reverser/reverse: {point: W4}
                          wire-feed/application: {point: W5}
                          wire-feed/holding: {point: W6}
                        """)
                .replace(
                        "{point: BC1T, calibration: twin-transducer}",
                        "{point: BC1T, calibration: twin-transducer, tube: 100 ms, tube-within: 2 ms}")
                .replace(
                        "{point: BC4, calibration: cylinder-transducer}",
                        "{point: BC4, calibration: cylinder-transducer, tube: 150 ms, tube-within: 2 ms}");
        simulated = Files.writeString(folder.resolve("twins.yaml"), text, UTF_8);
    }

    @Test
    @Execution(ExecutionMode.CONCURRENT)
    void overASerialLine() throws Exception {
        Process served = Shipped.start("bench", "serve", "--serial", "--bench", simulated, "--seed", SEED);
        try {
            measuresTheSame("serial: {device: " + served.inputReader().readLine() + ", beat: 500 ms}");
        } finally {
            ends(served);
        }
    }

    @Test
    @Execution(ExecutionMode.CONCURRENT)
    @NeedsTools({"mosquitto"})
    void overABroker() throws Exception {
        Mosquitto broker = Mosquitto.start(folder);
        Process served = Shipped.start(
                "bench", "serve", "--mqtt", broker.url(), "--bench", simulated, "--seed", SEED, "--speed", SPEED);
        try {
            measuresTheSame("mqtt: {broker: '" + broker.url() + "', name: "
                    + served.inputReader().readLine() + ", beat: 500 ms, speed: " + SPEED + " times}");
        } finally {
            ends(served);
            broker.kill();
        }
    }

    private void measuresTheSame(String link) throws Exception {
        Path bench = Files.writeString(folder.resolve("linked.yaml"), Shipped.linked(text, link), UTF_8);
        Ended linked = run("linked", "--bench", bench, "--armed-by", "T. Night");
        Ended dry = run("dry", "--bench", simulated, "--seed", SEED);

        assertThat(dry.exit()).as(dry.out() + dry.err()).isZero();
        assertThat(linked.exit()).as(linked.out() + linked.err()).isZero();
        Map<String, Finding> there = ShippedRecords.findings(folder.resolve("linked"));
        assertThat(there.get("throughout/bench-twins-agree").verdict()).isEqualTo(Verdict.PASS);
        assertThat(there.get("cylinder-fills").measured().orElseThrow().components())
                .extracting(Component::source)
                .contains("tube/BC4");
        Map<String, Finding> here = ShippedRecords.findings(folder.resolve("dry"));
        ShippedRecords.assertAgree(ofCylinders(there), ofCylinders(here));
    }

    /**
     * Without how far twins were apart at the most, which each run's noise draws anew, and without the wire's time,
     * which differs by the microseconds after which an order was really executed.
     */
    private static Map<String, Finding> ofCylinders(Map<String, Finding> findings) {
        findings.keySet().removeIf(id -> id.startsWith("throughout/") || id.equals("wire-follows"));
        return findings;
    }

    private Ended run(String records, Object... more) throws Exception {
        Object[] arguments = new Object[more.length + 5];
        arguments[0] = "run";
        arguments[1] = "--plain";
        arguments[2] = "--records";
        arguments[3] = folder.resolve(records);
        System.arraycopy(more, 0, arguments, 4, more.length);
        arguments[arguments.length - 1] = SEQUENCE;
        return Shipped.lapwingOverALink(folder.resolve(records), arguments);
    }

    private static void ends(Process served) throws InterruptedException {
        served.destroy();
        assertThat(served.waitFor(1, TimeUnit.MINUTES)).isTrue();
    }
}
