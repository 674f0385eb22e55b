package dev.lapwing.transport;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.link.host.HostSettings;
import dev.lapwing.time.MonotonicClock;
import dev.lapwing.transport.linked.BenchCarrier;
import dev.lapwing.transport.linked.ServedBench;
import dev.lapwing.transport.mqtt.Credentials;
import dev.lapwing.transport.mqtt.MqttBench;
import dev.lapwing.transport.mqtt.ServedTopics;
import dev.lapwing.transport.serial.SerialBench;
import dev.lapwing.transport.serial.ServedLine;
import java.io.IOException;

/**
 * A served bench of eight channels, and what a host opens to reach it.
 *
 * @param carrier what the bench sends by
 * @param choice  how the host reaches it
 * @param served  the bench's end, which must be closed
 */
record Link(StampedCarrier carrier, LinkChoice choice, ServedBench served) implements AutoCloseable {
    static final String SESSION = "5be1c07d";
    static final HostSettings SETTINGS = new HostSettings(SESSION, "benchmark", 50);

    private static final int BEAT_MS = 300;

    /** At a pseudo-terminal that is as slow as a line of that baud rate. */
    static Link serial(int baud, SquareWave points) throws IOException {
        ServedLine line = ServedLine.open(baud);
        return of(line, new LinkChoice.Serial(line.device(), baud, BEAT_MS, 1), points);
    }

    /** Behind a broker. */
    static Link mqtt(String broker, SquareWave points) throws IOException {
        ServedTopics topics = ServedTopics.open(broker, Pressures.card(), Credentials.NONE);
        return of(topics, new LinkChoice.Mqtt(broker, Pressures.NAME, BEAT_MS, 1), points);
    }

    private static Link of(BenchCarrier carrier, LinkChoice choice, SquareWave points) {
        StampedCarrier stamped = new StampedCarrier(carrier);
        ServedBench served = new ServedBench(Pressures.card(), points, stamped, 1, MonotonicClock.system());
        served.start();
        return new Link(stamped, choice, served);
    }

    static Bench open(BenchFile file) throws BenchFailure {
        if (file.link() instanceof LinkChoice.Mqtt mqtt) {
            return MqttBench.open(file, mqtt, Credentials.NONE, SETTINGS, MonotonicClock.system());
        }
        return SerialBench.open(file, (LinkChoice.Serial) file.link(), SETTINGS, MonotonicClock.system());
    }

    @Override
    public void close() {
        served.close();
    }
}
