package dev.lapwing.cli;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.fixture.Fixture;
import dev.lapwing.link.host.HostSettings;
import dev.lapwing.simulated.SimulatedBench;
import dev.lapwing.time.MonotonicClock;
import dev.lapwing.time.WallClock;
import dev.lapwing.transport.linked.LinkLook;
import dev.lapwing.transport.modbus.ModbusBench;
import dev.lapwing.transport.mqtt.BrokerLook;
import dev.lapwing.transport.mqtt.Credentials;
import dev.lapwing.transport.mqtt.MqttBench;
import dev.lapwing.transport.serial.SerialBench;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.SplittableRandom;

/** Opens the bench that a bench file describes, however it is reached. */
final class Benches {
    /** Bound of the rate error of a computer's monotonic clock, in parts per million; common practice, no source. */
    private static final double HOST_PPM = 200;

    private Benches() {}

    static Bench open(BenchFile file, Fixture fixture, long seed) throws BenchFailure {
        return inThisProcess(file)
                ? SimulatedBench.open(file, fixture.wiring(), fixture.simulation(), seed)
                : outside(file);
    }

    /** Opens a bench that is outside this process; commissioning refuses files of the other kind. */
    static Bench outside(BenchFile file) throws BenchFailure {
        if (file.link() instanceof LinkChoice.Serial serial) {
            return SerialBench.open(file, serial, settings(), MonotonicClock.system());
        }
        if (file.link() instanceof LinkChoice.Mqtt mqtt) {
            return MqttBench.open(file, mqtt, credentials(mqtt.files()), settings(), MonotonicClock.system());
        }
        if (file.link() instanceof LinkChoice.Modbus modbus) {
            return ModbusBench.open(file, modbus, token(), HOST_PPM, MonotonicClock.system());
        }
        throw new IllegalArgumentException("a bench that is simulated in this process is not opened as one outside");
    }

    /**
     * Looks at whatever answers at a link, without arming it.
     *
     * @param pings how many round trips are timed
     */
    static LinkLook.Seen look(LinkChoice link, int pings) throws BenchFailure {
        if (link instanceof LinkChoice.Serial serial) {
            return SerialBench.look(serial, settings(), MonotonicClock.system(), pings);
        }
        if (link instanceof LinkChoice.Mqtt mqtt) {
            return MqttBench.look(mqtt, credentials(mqtt.files()), settings(), MonotonicClock.system(), pings);
        }
        throw new IllegalArgumentException("a bench that is simulated in this process answers at no link");
    }

    /** Names of the benches that say on a broker that they are there. */
    static List<String> there(String broker) throws BenchFailure {
        return BrokerLook.at(broker, credentials(LinkChoice.BrokerFiles.NONE), token());
    }

    /**
     * From files, or from the environment: a command line can be read by others.
     *
     * @param files named by a bench file; what it does not name may be named by the environment
     */
    static Credentials credentials(LinkChoice.BrokerFiles files) throws BenchFailure {
        Optional<String> file = files.credentials().or(() -> environment("LAPWING_MQTT_CREDENTIALS"));
        Credentials credentials = file.isPresent()
                ? Credentials.of(Path.of(file.get()))
                : new Credentials(environment("LAPWING_MQTT_USER"), environment("LAPWING_MQTT_PASSWORD"));
        return files.authority()
                .or(() -> environment("LAPWING_MQTT_AUTHORITY"))
                .map(name -> credentials.vouchedBy(Path.of(name)))
                .orElse(credentials);
    }

    private static Optional<String> environment(String name) {
        return Optional.ofNullable(System.getenv(name)).filter(text -> !text.isEmpty());
    }

    /** Whether plant and unit run in this process: then there is nothing to arm, and every run is a dry one. */
    static boolean inThisProcess(BenchFile file) {
        return file.link() instanceof LinkChoice.Simulated;
    }

    /** Who this host is, with a session of its own. */
    static HostSettings settings() {
        return new HostSettings(token(), "lapwing " + Lapwing.Version.text(), HOST_PPM);
    }

    /** Eight hex digits that no other start of this or another process is likely to draw. */
    static String token() {
        long seed = WallClock.system().now().toEpochMilli() * 1_000_003
                + MonotonicClock.system().nanos()
                + 31 * ProcessHandle.current().pid();
        return String.format(Locale.ROOT, "%08x", new SplittableRandom(seed).nextInt());
    }
}
