package dev.lapwing.cli;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.fixture.Fixture;
import dev.lapwing.link.BenchCard;
import dev.lapwing.link.BenchMessage.Greeting;
import dev.lapwing.link.MessageWriter;
import dev.lapwing.link.Wire;
import dev.lapwing.simulated.SimulatedTerminals;
import dev.lapwing.time.MonotonicClock;
import dev.lapwing.transport.linked.BenchCarrier;
import dev.lapwing.transport.linked.BenchFault;
import dev.lapwing.transport.linked.ServedBench;
import dev.lapwing.transport.linked.SpoiltCarrier;
import dev.lapwing.transport.linked.TimedFault;
import dev.lapwing.transport.mqtt.Credentials;
import dev.lapwing.transport.mqtt.FirstTryBroker;
import dev.lapwing.transport.mqtt.ServedTopics;
import dev.lapwing.transport.serial.ServedLine;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** A simulated bench behind a real link, in real time. */
@Command(
        name = "serve",
        mixinStandardHelpOptions = true,
        description = "Serves a simulated bench, in real time, on a pseudo-terminal or a broker until Ctrl-C.",
        exitCodeList = {"0:served until it was stopped", "3:it could not be served, or be reached any more"})
final class ServeCommand implements Callable<Integer> {
    /** How often it is seen whether the bench can still be reached. */
    private static final long LOOK_MS = 200;

    @Spec
    private CommandSpec spec;

    @Option(names = "--serial", description = "On a pseudo-terminal, whose device is printed.")
    private boolean serial;

    @Option(
            names = "--mqtt",
            paramLabel = "URL",
            converter = BrokerUrl.class,
            description = "On a broker, such as tcp://localhost:1883; the bench's name there is printed. User name and"
                    + " password come from the file that LAPWING_MQTT_CREDENTIALS names, or from LAPWING_MQTT_USER"
                    + " and LAPWING_MQTT_PASSWORD; with ssl: LAPWING_MQTT_AUTHORITY names the certificates of who"
                    + " vouches for the broker.")
    private Optional<String> mqtt;

    @Option(
            names = "--own-broker",
            arity = "0..1",
            fallbackValue = "1883",
            converter = WholeNumber.Port.class,
            paramLabel = "PORT",
            description = "On a broker that is started with it, for a first try: on this machine only, without user"
                    + " names and encryption, at TCP port ${FALLBACK-VALUE} unless another is given, 1 to 65535. The"
                    + " bench's name and the broker's URL are printed.")
    private Optional<Integer> ownBroker;

    @Mixin
    private ChosenUnit chosen;

    @Option(
            names = "--bench",
            paramLabel = "FILE",
            description = "A bench file that is linked as simulated; bench-config/simulated.yaml by default.")
    private Optional<Path> bench;

    @Mixin
    private Pace pace;

    @Option(
            names = "--fault",
            paramLabel = "FAULT[@TIME]",
            converter = FaultOption.class,
            description = {
                "What goes wrong on purpose, from that bench time on, at once by default; may be given again. On a"
                        + " broker dropped and doubled meet messages instead of bytes. One of:",
                FaultOption.FORMS + ".",
                FaultOption.FIGURES
            })
    private List<TimedFault> faults = List.of();

    @Option(
            names = "--fault-seed",
            defaultValue = "1",
            paramLabel = "NUMBER",
            description = "Any whole number; draws which bits, bytes or messages the faults of the line meet;"
                    + " ${DEFAULT-VALUE} by default.")
    private long faultSeed;

    @Override
    public Integer call() {
        long ways = Stream.of(serial, mqtt.isPresent(), ownBroker.isPresent())
                .filter(Boolean::booleanValue)
                .count();
        if (ways != 1) {
            throw new ParameterException(
                    spec.commandLine(), "say how it is to be reached: --serial, --mqtt URL or --own-broker");
        }
        if (!serial && faults.stream().anyMatch(timed -> ofBytes(timed.fault()))) {
            throw new ParameterException(
                    spec.commandLine(),
                    "a broker carries whole messages, and no bytes to spoil: with one go dropped, doubled, delay,"
                            + " stall, unplugged, dead-transducer, reset and power-loss");
        }
        Home home = Home.found();
        PrintWriter err = spec.commandLine().getErr();
        Optional<Simulable> given = Simulable.read(chosen.fixture(home), home.bench(bench), err);
        if (given.isEmpty()) {
            return ExitCode.USAGE.code();
        }
        refuseUnfit(given.get().bench());
        try {
            serve(given.get().bench(), given.get().unit());
            return ExitCode.PASS.code();
        } catch (BenchFailure | IOException e) {
            err.println("lapwing: " + e.getMessage());
            return ExitCode.ERROR.code();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return ExitCode.ERROR.code();
        }
    }

    private static boolean ofBytes(BenchFault fault) {
        return fault instanceof BenchFault.OnTheLine && !(fault instanceof BenchFault.OfMessages);
    }

    private void refuseUnfit(BenchFile file) {
        for (TimedFault timed : faults) {
            FaultOption.unfit(timed.fault(), file).ifPresent(why -> {
                throw new ParameterException(spec.commandLine(), "--fault: " + why);
            });
        }
    }

    private void serve(BenchFile file, Fixture fixture) throws BenchFailure, IOException, InterruptedException {
        SimulatedTerminals terminals =
                SimulatedTerminals.open(file, fixture.wiring(), fixture.simulation(), chosen.seed());
        BenchCard card = terminals.card(Benches.token(), pace.speed());
        refuseTooMuch(file, card);
        CountDownLatch stopped = new CountDownLatch(1);
        StopSignals.passTo(stopped::countDown);
        if (ownBroker.isPresent()) {
            try (FirstTryBroker broker = broker()) {
                int port = ownBroker.get();
                broker.start(port);
                String url = "tcp://127.0.0.1:" + port;
                BenchCarrier topics = ServedTopics.open(url, card, Credentials.NONE);
                serve(card, terminals, spoilt(topics), List.of(card.name(), url), stopped);
            }
        } else if (mqtt.isPresent()) {
            Credentials credentials = Benches.credentials(LinkChoice.BrokerFiles.NONE);
            BenchCarrier topics = ServedTopics.open(mqtt.get(), card, credentials);
            serve(card, terminals, spoilt(topics), List.of(card.name()), stopped);
        } else {
            ServedLine line = ServedLine.open(pace.baud(), faults, faultSeed, pace.speed(), MonotonicClock.system());
            serve(card, terminals, line, List.of(line.device()), stopped);
        }
    }

    /** No host would hear a greeting that is longer than a line may be. */
    private void refuseTooMuch(BenchFile file, BenchCard card) {
        Greeting longest = new Greeting(card.boot(), Integer.MAX_VALUE, Wire.NUMBER_MAX, Wire.NUMBER_MAX, card);
        int bytes = MessageWriter.json(longest).length + Wire.LINE_EXTRA_BYTES;
        if (bytes > Wire.BENCH_BYTES_MAX) {
            throw new ParameterException(
                    spec.commandLine(),
                    file.file() + ": a bench of " + card.points().size() + " points takes " + bytes
                            + " bytes to say what it has, and the bench link carries " + Wire.BENCH_BYTES_MAX
                            + " at once; leave out points that this unit does not need");
        }
    }

    private BenchCarrier spoilt(BenchCarrier topics) {
        return SpoiltCarrier.of(topics, faults, faultSeed, pace.speed(), MonotonicClock.system());
    }

    private static FirstTryBroker broker() throws BenchFailure {
        Path folder = Home.found().file("harness/target/lib-broker");
        return FirstTryBroker.in(folder)
                .orElseThrow(() -> new BenchFailure("the broker for a first try is optional and not there; 'mvn"
                        + " package' puts its libraries into " + folder + ", or name another broker with --mqtt URL"));
    }

    /** The command that shows the bench to whoever has just served it. */
    private String look(List<String> reached) {
        String way = serial
                ? "--serial " + reached.get(0)
                : "--mqtt " + mqtt.orElseGet(() -> reached.get(1)) + " --name " + reached.get(0);
        return "harness/lapwing bench show " + way + pace.options(serial);
    }

    /** @param reached what a host must know, a line each */
    private void serve(
            BenchCard card,
            SimulatedTerminals terminals,
            BenchCarrier carrier,
            List<String> reached,
            CountDownLatch stopped)
            throws BenchFailure, InterruptedException {
        MonotonicClock machine = MonotonicClock.system();
        try (ServedBench served = new ServedBench(card, terminals, carrier, pace.speed(), machine, faults)) {
            served.start();
            reached.forEach(spec.commandLine().getOut()::println);
            spec.commandLine().getOut().flush();
            spec.commandLine()
                    .getErr()
                    .println("lapwing: served until Ctrl-C; to see it, from another terminal: " + look(reached));
            spec.commandLine().getErr().flush();
            while (!stopped.await(LOOK_MS, TimeUnit.MILLISECONDS)) {
                if (served.ended().isPresent()) {
                    throw new BenchFailure(card.name() + " is not served any more: "
                            + served.ended().get());
                }
            }
        }
    }
}
