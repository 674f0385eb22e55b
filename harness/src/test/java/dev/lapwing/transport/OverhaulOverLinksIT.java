package dev.lapwing.transport;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.NeedsTools;
import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.evidence.RunRecord;
import dev.lapwing.finding.Verdict;
import dev.lapwing.link.BenchCard;
import dev.lapwing.run.Progress;
import dev.lapwing.simulated.SimulatedTerminals;
import dev.lapwing.time.MonotonicClock;
import dev.lapwing.transport.linked.Agreement;
import dev.lapwing.transport.linked.BenchCarrier;
import dev.lapwing.transport.linked.FarCab;
import dev.lapwing.transport.linked.ServedBench;
import dev.lapwing.transport.linked.SimulatedBeside;
import dev.lapwing.transport.mqtt.Credentials;
import dev.lapwing.transport.mqtt.FirstTryBroker;
import dev.lapwing.transport.mqtt.FreePort;
import dev.lapwing.transport.mqtt.Mosquitto;
import dev.lapwing.transport.mqtt.MqttBench;
import dev.lapwing.transport.mqtt.ServedTopics;
import dev.lapwing.transport.serial.SerialBench;
import dev.lapwing.transport.serial.ServedLine;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.ConcurrentSkipListMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;

/**
 * The overhaul over each link passes as in this process, and each quantity lies within both expanded uncertainties
 * (k = 2) of what simulated runs of the same specimen measure, driven at the same instants. None may lie beyond:
 * independent runs would differ by more than the sum of both once in 200 quantities, and these share every constant
 * error. One sequence, all links at a time; others with {@code -Dlapwing.overhaul=all}, or words that their names hold,
 * separated by commas. How much faster than real time the bench goes: {@code -Dlapwing.overhaul.speed=8}.
 */
class OverhaulOverLinksIT {
    /** Sequences whose names hold one of these words, separated by commas. */
    private static final String CHOSEN = System.getProperty("lapwing.overhaul", "12-crew-ep-test");

    private static final double SPEED = Integer.getInteger("lapwing.overhaul.speed", 8);
    /** Fast enough that a bench that goes faster than real time fits on the line: its bytes take no less time. */
    private static final int BAUD = 4_000_000;

    /** Nothing is live here that a busy machine could hurt: beat limits are tested elsewhere. */
    private static final int BEAT_MS = 2_000;

    private static final double BEAT_TIMES = BEAT_MS / 500.0;
    private static final MonotonicClock CLOCK = MonotonicClock.system();
    private static final Path FOLDER = Path.of("sequences/overhaul");
    private static final Path FIGURES = Path.of("harness/target/overhaul-over-links.txt");
    private static final Map<String, String> TOLD = new ConcurrentSkipListMap<>();

    @TempDir
    private Path records;

    /** A machine that stands still for a second loses the link, as it must; such a run is done anew. */
    private static final int TRIES = 4;

    /** A bench that was just switched on, and a host that has greeted it. */
    private interface Link {
        RunRecord run(SimulatedTerminals terminals, OnBench sequence) throws BenchFailure, IOException;
    }

    private interface OnBench {
        RunRecord on(Bench bench, BenchFile file);
    }

    @Test
    @Execution(ExecutionMode.CONCURRENT)
    void overASerialLineItMeasuresTheSame() throws Exception {
        agrees("serial", (terminals, sequence) -> {
            ServedLine line = ServedLine.open(BAUD);
            LinkChoice.Serial link = new LinkChoice.Serial(line.device(), BAUD, BEAT_MS, SPEED);
            try (ServedBench served = served(terminals, terminals.card(FarCab.token(1), BEAT_TIMES * SPEED), line)) {
                served.start();
                BenchFile file = FarCab.reached(link);
                try (Bench bench = SerialBench.open(file, link, FarCab.host(2), CLOCK)) {
                    return sequence.on(bench, file);
                }
            }
        });
    }

    @Test
    @Execution(ExecutionMode.CONCURRENT)
    @NeedsTools({"mosquitto"})
    void overMosquittoItMeasuresTheSame() throws Exception {
        Mosquitto broker = Mosquitto.start(records);
        try {
            agrees("mosquitto", (terminals, sequence) -> overBroker(broker.url(), terminals, sequence));
        } finally {
            broker.kill();
        }
    }

    @Test
    @Execution(ExecutionMode.CONCURRENT)
    void overTheBrokerForAFirstTryItMeasuresTheSame() throws Exception {
        int port = FreePort.next();
        try (FirstTryBroker broker =
                FirstTryBroker.in(Path.of("harness/target/lib-broker")).orElseThrow()) {
            broker.start(port);
            agrees("own broker", (terminals, sequence) -> overBroker("tcp://127.0.0.1:" + port, terminals, sequence));
        }
    }

    private static RunRecord overBroker(String url, SimulatedTerminals terminals, OnBench sequence)
            throws BenchFailure, IOException {
        BenchCard card = terminals.card(FarCab.token(1), BEAT_TIMES * SPEED);
        LinkChoice.Mqtt link = new LinkChoice.Mqtt(url, card.name(), BEAT_MS, SPEED);
        try (ServedBench served = served(terminals, card, ServedTopics.open(url, card, Credentials.NONE))) {
            served.start();
            BenchFile file = FarCab.reached(link);
            try (Bench bench = MqttBench.open(file, link, Credentials.NONE, FarCab.host(2), CLOCK)) {
                return sequence.on(bench, file);
            }
        }
    }

    private static ServedBench served(SimulatedTerminals terminals, BenchCard card, BenchCarrier carrier) {
        return new ServedBench(card, terminals, carrier, SPEED, CLOCK);
    }

    private void agrees(String name, Link link) throws Exception {
        int quantities = 0;
        double greatest = 0;
        String greatestOf = "";
        List<String> wrong = new ArrayList<>();
        long beganNanos = CLOCK.nanos();
        for (Path sequence : sequences()) {
            RunRecord linked = linked(name, link, sequence);
            linked.course().troubles().forEach(trouble -> wrong.add(sequence.getFileName() + ": " + trouble.why()));
            Agreement agreement =
                    Agreement.of(linked, SimulatedBeside.of(sequence, linked, folder(name + " simulated", sequence)));
            agreement.differences().forEach(what -> wrong.add(sequence.getFileName() + ": " + what));
            if (linked.verdict() != Verdict.PASS && linked.verdict() != Verdict.NONE) {
                linked.findings().stream()
                        .filter(finding -> finding.verdict() != Verdict.PASS && finding.verdict() != Verdict.NONE)
                        .forEach(finding -> wrong.add(sequence.getFileName() + ": " + finding.verdict() + " of "
                                + finding.id() + ": " + finding.because()));
            }
            quantities += agreement.quantities();
            if (agreement.greatest() > greatest) {
                greatest = agreement.greatest();
                greatestOf = sequence.getFileName() + ", " + agreement.greatestOf();
            }
            tell(
                    name,
                    String.format(
                            Locale.ROOT,
                            "%-12s %4d quantities, greatest |difference| / U %.2f (%s), %.0f s%s",
                            name,
                            quantities,
                            greatest,
                            greatestOf,
                            (CLOCK.nanos() - beganNanos) * 1e-9,
                            wrong.stream().map(what -> "\n  " + what).collect(Collectors.joining())));
        }
        assertThat(wrong).isEmpty();
    }

    private static synchronized void tell(String name, String lines) throws IOException {
        TOLD.put(name, lines);
        Files.createDirectories(FIGURES.getParent());
        Files.writeString(FIGURES, String.join("\n", TOLD.values()) + "\n", UTF_8);
    }

    private RunRecord linked(String name, Link link, Path sequence) throws BenchFailure, IOException {
        for (int i = 1; i < TRIES; i++) {
            try {
                RunRecord record = tried(name + " " + i, link, sequence);
                if (record.course().troubles().isEmpty()) {
                    return record;
                }
            } catch (BenchFailure e) {
                // Not even greeted in time; the last try tells.
            }
        }
        return tried(name + " " + TRIES, link, sequence);
    }

    private RunRecord tried(String name, Link link, Path sequence) throws BenchFailure, IOException {
        return link.run(
                FarCab.terminals(),
                (bench, file) -> FarCab.on(sequence, bench, file, folder(name, sequence), Progress.NONE));
    }

    private Path folder(String name, Path sequence) {
        return records.resolve(name + " " + sequence.getFileName());
    }

    private static List<Path> sequences() throws IOException {
        try (Stream<Path> files = Files.list(FOLDER)) {
            return files.filter(file -> file.toString().endsWith(".yaml"))
                    .filter(file ->
                            CHOSEN.equals("all") || Stream.of(CHOSEN.split(",")).anyMatch(file.toString()::contains))
                    .sorted()
                    .toList();
        }
    }
}
