package dev.lapwing.transport;

import dev.lapwing.bench.LinkChoice;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;

/** How quick the harness is at a link, each figure on a line. See {@code harness/bench links}. */
public final class LinkFigures {
    private static final int BAUD = LinkChoice.BAUD_DEFAULT;
    /** Sample interval at which eight channels fill more than 95 % of that line. */
    private static final long NEARLY_FULL_US = 195;

    private static final int FLOOD_MESSAGES = 100_000;
    private static final String ALL = "all";

    private LinkFigures() {}

    /**
     * Measures.
     *
     * @param args which part, of {@code ingest}, {@code flood}, {@code delay}, {@code quiet}, {@code all}; then
     *     how many decisions
     */
    public static void main(String[] args) throws Exception {
        String part = args.length > 0 ? args[0] : ALL;
        int decisions = args.length > 1 ? Integer.parseInt(args[1]) : 1_000;
        Path folder = Files.createTempDirectory("lapwing-links");
        try (Broker broker = Broker.start(folder)) {
            if (List.of("flood", ALL).contains(part)) {
                flood(broker.url());
            }
            if (List.of("ingest", ALL).contains(part)) {
                ingest(20, folder);
            }
            if (List.of("delay", ALL).contains(part)) {
                delay(broker.url(), decisions, folder);
            }
            if (List.of("quiet", ALL).contains(part)) {
                quiet(broker.url(), 30, folder);
            }
        } finally {
            delete(folder);
        }
        System.exit(0);
    }

    private static void ingest(int seconds, Path folder) throws Exception {
        System.out.println("Eight channels, dense, over a pseudo-terminal as slow as " + BAUD + " baud:");
        System.out.println(SerialIngest.paced("8 at 1 kHz", BAUD, 1_000, seconds, folder));
        System.out.println(SerialIngest.paced("8 at 5 kHz", BAUD, 200, seconds, folder));
        System.out.println(SerialIngest.paced("8 at 5.13 kHz", BAUD, NEARLY_FULL_US, seconds, folder));
    }

    private static void flood(String broker) throws Exception {
        System.out.println("As quick as it goes, the same pseudo-terminal and bytes:");
        System.out.println(SerialIngest.unpaced(FLOOD_MESSAGES));
        System.out.println("As quick as it goes, the same broker and messages:");
        System.out.println(MqttIngest.of(broker, FLOOD_MESSAGES));
    }

    private static void delay(String broker, int decisions, Path folder) throws Exception {
        System.out.println("From the arrival of samples to the runner's decision:");
        SquareWave wave = new SquareWave(DecisionDelay.HALF_US);
        System.out.println(DecisionDelay.of("serial, 8 at 1 kHz", Link.serial(BAUD, wave), 1_000, decisions, folder));
        System.out.println(DecisionDelay.of("serial, 8 at 5 kHz", Link.serial(BAUD, wave), 200, decisions, folder));
        System.out.println(DecisionDelay.of("MQTT, 8 at 1 kHz", Link.mqtt(broker, wave), 1_000, decisions, folder));
        System.out.println(DecisionDelay.of("MQTT, 8 at 5 kHz", Link.mqtt(broker, wave), 200, decisions, folder));
    }

    private static void quiet(String broker, int seconds, Path folder) throws Exception {
        System.out.println("Processor time of a quiet armed session:");
        SquareWave wave = new SquareWave(DecisionDelay.HALF_US);
        System.out.println(QuietSession.of("serial, no streams", Link.serial(BAUD, wave), 0, seconds, folder));
        System.out.println(QuietSession.of("serial, 8 at 1 kHz", Link.serial(BAUD, wave), 1_000, seconds, folder));
        System.out.println(QuietSession.of("serial, 8 at 5 kHz", Link.serial(BAUD, wave), 200, seconds, folder));
        System.out.println(QuietSession.of("MQTT, no streams", Link.mqtt(broker, wave), 0, seconds, folder));
        System.out.println(QuietSession.of("MQTT, 8 at 1 kHz", Link.mqtt(broker, wave), 1_000, seconds, folder));
    }

    private static void delete(Path folder) throws IOException {
        try (var all = Files.walk(folder)) {
            all.sorted(Comparator.reverseOrder()).forEach(path -> {
                try {
                    Files.delete(path);
                } catch (IOException e) {
                    throw new UncheckedIOException(e);
                }
            });
        }
    }
}
