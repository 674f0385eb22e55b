package dev.lapwing.cli;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.bench.Polled;
import dev.lapwing.bench.RoundTrips;
import dev.lapwing.link.BenchCard;
import dev.lapwing.link.LinkPoint;
import dev.lapwing.link.Wire;
import dev.lapwing.report.Sentences;
import dev.lapwing.time.MonotonicClock;
import dev.lapwing.transport.linked.LinkLook;
import dev.lapwing.transport.modbus.ModbusLook;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Who answers at a link. */
@Command(
        name = "show",
        mixinStandardHelpOptions = true,
        description = "Shows who answers at a bench's link, what it has, and how long its answers take. Arms nothing.",
        exitCodeList = {"0:every bench that was asked for answered", "3:one did not answer"})
final class ShowCommand implements Callable<Integer> {
    @Spec
    private CommandSpec spec;

    @Parameters(arity = "0..1", paramLabel = "FILE", description = "A bench file, for the link that stands in it.")
    private Optional<Path> file;

    @Option(
            names = "--serial",
            paramLabel = "DEVICE",
            description = "A serial device, such as /dev/ttyACM0, instead of FILE.")
    private Optional<String> serial;

    @Option(
            names = "--mqtt",
            paramLabel = "URL",
            converter = BrokerUrl.class,
            description = "A broker, such as tcp://localhost:1883, instead of FILE.")
    private Optional<String> mqtt;

    @Option(
            names = "--name",
            paramLabel = "BENCH",
            description =
                    "The bench's name on the broker, 1 to 32 letters, digits and hyphens; without it every bench that"
                            + " says there that it is there.")
    private Optional<String> name;

    @Mixin
    private Pace pace;

    @Option(
            names = "--pings",
            defaultValue = "200",
            paramLabel = "NUMBER",
            converter = WholeNumber.Pings.class,
            description = "How many round trips are timed, 1 to 100000; ${DEFAULT-VALUE} by default.")
    private int pings;

    private Optional<BenchFile> bench = Optional.empty();

    @Override
    public Integer call() {
        PrintWriter err = spec.commandLine().getErr();
        long ways = Stream.of(file.isPresent(), serial.isPresent(), mqtt.isPresent())
                .filter(Boolean::booleanValue)
                .count();
        if (ways != 1 || name.isPresent() && mqtt.isEmpty()) {
            throw new ParameterException(
                    spec.commandLine(),
                    "say which bench: a FILE, --serial DEVICE, or --mqtt URL, with --name BENCH if there are several");
        }
        if (name.filter(said -> !Wire.isName(said)).isPresent()) {
            throw new ParameterException(
                    spec.commandLine(), "--name: a bench's name is 1 to 32 letters, digits and hyphens");
        }
        try {
            List<LinkChoice> links = links(err);
            return (links.isEmpty() ? ExitCode.USAGE : all(links)).code();
        } catch (BenchFailure e) {
            err.println("lapwing: " + e.getMessage());
            return ExitCode.ERROR.code();
        }
    }

    /** One that does not answer keeps no other from being shown. */
    private ExitCode all(List<LinkChoice> links) throws BenchFailure {
        if (links.size() == 1) {
            show(links.get(0), pings);
            return ExitCode.PASS;
        }
        ExitCode worst = ExitCode.PASS;
        for (LinkChoice link : links) {
            try {
                show(link, pings);
            } catch (BenchFailure e) {
                worst = ExitCode.ERROR;
                spec.commandLine()
                        .getErr()
                        .println("lapwing: " + ((LinkChoice.Mqtt) link).name() + ": " + e.getMessage());
            }
            spec.commandLine().getOut().println();
        }
        return worst;
    }

    /** Empty if the bench file has mistakes or answers at no link, which is told. */
    private List<LinkChoice> links(PrintWriter err) throws BenchFailure {
        if (file.isPresent()) {
            bench = GivenBench.read(file.get(), err);
            return bench.map(BenchFile::link).stream().toList();
        }
        if (serial.isPresent()) {
            return List.of(new LinkChoice.Serial(serial.get(), pace.baud(), LinkChoice.BEAT_MS_DEFAULT, pace.speed()));
        }
        List<LinkChoice> there = new ArrayList<>();
        for (String each : names(mqtt.orElseThrow())) {
            there.add(new LinkChoice.Mqtt(mqtt.orElseThrow(), each, LinkChoice.BEAT_MS_DEFAULT, pace.speed()));
        }
        return there;
    }

    private List<String> names(String broker) throws BenchFailure {
        List<String> names = name.isPresent() ? List.of(name.get()) : Benches.there(broker);
        if (names.isEmpty()) {
            throw new BenchFailure("no bench says on " + broker
                    + " that it is there; look at its power, and whether it is set to this broker");
        }
        return names;
    }

    private void show(LinkChoice link, int times) throws BenchFailure {
        if (link instanceof LinkChoice.Modbus modbus) {
            BenchFile modules = bench.orElseThrow();
            Map<Polled, RoundTrips> seen = ModbusLook.at(modules, modbus, times, MonotonicClock.system());
            new ModulesText(modules, modbus)
                    .lines(seen)
                    .forEach(spec.commandLine().getOut()::println);
            spec.commandLine().getOut().flush();
        } else {
            show(Benches.look(link, times));
        }
    }

    private void show(LinkLook.Seen seen) {
        PrintWriter out = spec.commandLine().getOut();
        BenchCard card = seen.card();
        out.println("Bench:      " + card.name() + ", boot " + card.boot() + ", bench link " + card.link());
        out.println("Clock:      states " + card.clockPpm() + " ppm at most; "
                + (seen.clockDoubt().isEmpty() ? "nothing seen against it" : seen.clockDoubt()));
        out.println(line("            its time is known to within %.3f ms", seen.clockWidthUs() * 1e-3));
        seen.rate()
                .ifPresent(rate -> out.println(line(
                        "            it gains %.0f to %.0f ppm on this machine's clock",
                        rate.lowPpm(), rate.highPpm())));
        out.println("Round trip: " + LinkText.answers(seen.pings()));
        out.println("Holds:      " + Sentences.count(card.queue(), "timed set") + ", lines of " + card.maxLine()
                + " bytes, heartbeat limits up to " + card.maxBeatMs() + " ms"
                + (card.dense() ? ", dense samples" : ""));
        out.println("Points:     " + card.points().size());
        card.points().forEach(point -> out.println(point(point)));
        out.flush();
    }

    private static String point(LinkPoint point) {
        String stamps = "stamped within " + said(point.stampUs())
                + (point.filterUs() > 0 ? ", " + point.filterUs() + " us late" : "")
                + (point.glitchUs() > 0 ? ", pulses from " + point.glitchUs() + " us" : "");
        return LinkText.point(point, point.kind().output() ? "" : stamps);
    }

    private static String said(int us) {
        return us == LinkPoint.UNSAID ? "an unknown time" : us + " us";
    }

    private static String line(String format, Object... values) {
        return String.format(Locale.ROOT, format, values);
    }
}
