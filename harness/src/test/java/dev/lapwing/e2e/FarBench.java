package dev.lapwing.e2e;

import static java.nio.charset.StandardCharsets.UTF_8;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.files.BenchFiles;
import dev.lapwing.files.FixtureFiles;
import dev.lapwing.fixture.Fixture;
import dev.lapwing.link.BenchCard;
import dev.lapwing.simulated.SimulatedTerminals;
import dev.lapwing.transport.linked.WatchedBench;
import dev.lapwing.transport.mqtt.Credentials;
import dev.lapwing.transport.mqtt.Mosquitto;
import dev.lapwing.transport.mqtt.ServedTopics;
import dev.lapwing.transport.serial.ServedLine;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import java.util.function.IntConsumer;

/**
 * The shipped train, in this process, at the far end of a real link: for a harness that is a process of its own.
 *
 * @param file     the bench file by which the harness reaches it
 * @param transducer which transducer reads what a test applies
 * @param apply    lets it read so many counts from now on
 * @param live     whether an output may be driven: it is armed, or, of modules that know no arming, one is driven
 * @param watched  the served bench, of which it is known by its own clock how long it was live; none of modules
 * @param parts    what ends them, in this order
 */
record FarBench(
        Path file,
        Transducer transducer,
        IntConsumer apply,
        BooleanSupplier live,
        Optional<WatchedBench> watched,
        List<Runnable> parts)
        implements AutoCloseable {
    private static final int BEAT_MS = 500;

    private static final int BAUD = 921_600;
    private static final long SEED = 7;
    private static final String BOOT = "c0ffee01";

    /**
     * A transducer as the bench file has it so far.
     *
     * @param fullScale as a person types it
     * @param counts    at 0 psi and at full scale
     */
    record Transducer(String point, String signal, String fullScale, List<Integer> counts) {}

    private static final Transducer PIPE = new Transducer("BP1", "brake-pipe@1", "150 psi", List.of(2_000, 62_000));
    private static final Transducer CYLINDER =
            new Transducer("BC1", "brake-cylinder@1", "100 psi", List.of(4_000, 20_000));

    /** @param folder where the bench file is written */
    static FarBench at(RealLink link, Path folder) throws Exception {
        return switch (link) {
            case SERIAL -> serial(folder);
            case BROKER -> broker(folder);
            case MODBUS -> modbus(folder);
        };
    }

    private static FarBench serial(Path folder) throws Exception {
        AppliedCounts points = new AppliedCounts(terminals(), PIPE.point());
        ServedLine line = ServedLine.open(BAUD);
        WatchedBench served = WatchedBench.serve(card(), points, line, 1);
        Path file = Shipped.served(folder, "serial: {device: " + line.device() + ", beat: " + BEAT_MS + " ms}");
        return new FarBench(file, PIPE, points::apply, served::armed, Optional.of(served), List.of(served::close));
    }

    private static FarBench broker(Path folder) throws Exception {
        AppliedCounts points = new AppliedCounts(terminals(), PIPE.point());
        Mosquitto broker = Mosquitto.start(folder);
        WatchedBench served =
                WatchedBench.serve(card(), points, ServedTopics.open(broker.url(), card(), Credentials.NONE), 1);
        Path file = Shipped.served(
                folder,
                "mqtt: {broker: '" + broker.url() + "', name: " + card().name() + ", beat: " + BEAT_MS + " ms}");
        return new FarBench(
                file,
                PIPE,
                points::apply,
                served::armed,
                Optional.of(served),
                List.of(served::close, () -> kill(broker)));
    }

    private static FarBench modbus(Path folder) throws Exception {
        String text = TrainModules.patient(Files.readString(Path.of("bench-config/modbus-modules.yaml"), UTF_8));
        Path file = Files.writeString(folder.resolve("modules.yaml"), text, UTF_8);
        TrainModules modules = TrainModules.open(BenchFiles.load(file).value().orElseThrow(), unit(), SEED);
        Files.writeString(file, text.replace("/dev/ttyUSB0", modules.device()), UTF_8);
        return new FarBench(file, CYLINDER, modules::apply, modules::live, Optional.empty(), List.of(modules::close));
    }

    private static BenchCard card() throws BenchFailure {
        return terminals().card(BOOT);
    }

    private static SimulatedTerminals terminals() throws BenchFailure {
        BenchFile file =
                BenchFiles.load(Path.of("bench-config/simulated.yaml")).value().orElseThrow();
        return SimulatedTerminals.open(file, unit().wiring(), unit().simulation(), SEED);
    }

    static Fixture unit() {
        return FixtureFiles.load(Path.of("fixtures/classic.yaml")).value().orElseThrow();
    }

    private static void kill(Mosquitto broker) {
        try {
            broker.kill();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    @Override
    public void close() {
        parts.forEach(Runnable::run);
    }
}
