package dev.lapwing.files;

import dev.lapwing.bench.LinkChoice;
import dev.lapwing.bench.LinkChoice.Parity;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.Quantity;
import dev.lapwing.source.Place;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;

/** Reads how a bench is reached. */
final class LinkReader {
    /** Of steps of the plant: the pneumatics want milliseconds. */
    private static final Range STEP = new Range(1e-5, 0.02);

    private static final Range DELAY = new Range(0, 1);
    private static final Range SHARE = new Range(0, 0.1);
    private static final Range CLOCK = new Range(0, 0.001);
    private static final Range BEAT = new Range(0.1, 0.5);
    private static final Range SPEED = new Range(1, 100);
    /** Of the poll interval and of the round trip of Modbus modules: a line is lost after a second without answers. */
    private static final Range POLL = new Range(0.001, 1);

    private static final Map<String, Parity> PARITIES = Reading.byText(Parity.values(), Parity::text);

    private final Path path;
    private final Reading reading;
    private final Figures figures;
    private Optional<Form> modbus = Optional.empty();

    /** @param path of the bench file */
    LinkReader(Path path, Reading reading) {
        this.path = path;
        this.reading = reading;
        this.figures = new Figures(reading);
    }

    Optional<LinkChoice> read(Node node) {
        Optional<Form> form = reading.form(node, Shapes.LINK);
        if (form.isEmpty()) {
            return Optional.empty();
        }
        List<String> ways = Shapes.LINK.keys().stream().filter(form.get()::has).toList();
        if (ways.size() != 1) {
            String found = ways.isEmpty() ? "no link stands here" : "more than one link stands here";
            reading.mistake(node.place(), found, Reading.oneOf(Shapes.LINK.keys()), "");
            return Optional.empty();
        }
        Node way = form.get().value(ways.get(0)).orElseThrow();
        return switch (ways.get(0)) {
            case "serial" -> reading.form(way, Shapes.SERIAL).map(this::serial);
            case "mqtt" -> reading.form(way, Shapes.MQTT).map(this::mqtt);
            case "modbus" -> reading.form(way, Shapes.MODBUS).map(this::modbus);
            default -> reading.form(way, Shapes.SIMULATED).map(this::simulated);
        };
    }

    private LinkChoice simulated(Form form) {
        return new LinkChoice.Simulated(
                figure(form, "step", STEP, Dimension.TIME, 0),
                Math.round(figure(form, "command-delay", DELAY, Dimension.TIME, 0) * 1e6),
                figure(form, "transducer-error", SHARE, Dimension.RATIO, 0),
                form.value("span-error").isEmpty()
                        ? OptionalDouble.empty()
                        : OptionalDouble.of(figure(form, "span-error", SHARE, Dimension.RATIO, 0)),
                figure(form, "transducer-noise", SHARE, Dimension.RATIO, 0),
                figure(form, "clock-error", CLOCK, Dimension.CLOCK_RATE, 0));
    }

    private LinkChoice serial(Form form) {
        String device = form.text("device", "a serial device such as '/dev/ttyACM0'");
        return new LinkChoice.Serial(device, baud(form, LinkChoice.BAUD_DEFAULT), beatMs(form), speed(form));
    }

    /** Where a key of a Modbus link stands, or the link if it does not. */
    Optional<Place> modbusPlace(String key) {
        return modbus.map(form -> form.place(key));
    }

    private LinkChoice modbus(Form form) {
        modbus = Optional.of(form);
        double poll = figure(form, "poll", POLL, Dimension.TIME, 0);
        Parity parity = form.value("parity")
                .flatMap(node -> reading.choice(node, "parity", PARITIES))
                .orElse(Parity.EVEN);
        return new LinkChoice.Modbus(
                form.text("device", "a serial device such as '/dev/ttyUSB0'"),
                baud(form, LinkChoice.MODBUS_BAUD_DEFAULT),
                parity,
                Math.round(poll * 1e6),
                Math.round(figure(form, "round-trip", POLL, Dimension.TIME, poll) * 1e6),
                List.of());
    }

    private int baud(Form form, int otherwise) {
        return form.value("baud")
                .flatMap(node -> reading.whole(node, LinkChoice.BAUD_MIN, LinkChoice.BAUD_MAX, "a baud rate"))
                .orElse(otherwise);
    }

    private LinkChoice mqtt(Form form) {
        String broker = form.text("broker", "a broker's URL such as 'tcp://bench-broker:1883'");
        if (form.has("broker") && !broker.isEmpty() && !broker.matches(LinkChoice.BROKER)) {
            // What may hold a password is not repeated.
            String found = (broker.contains("@") ? "this" : Quoted.of(broker)) + " is no URL of a broker";
            reading.mistake(
                    form.place("broker"),
                    found,
                    "one such as 'tcp://bench-broker:1883', or 'ssl://bench-broker:8883' with TLS",
                    "user name and password come from a file named as 'credentials', or from the environment");
        }
        String name = form.text("name", "the bench's name on the broker");
        form.value("name")
                .filter(node -> !name.isEmpty())
                .ifPresent(node -> PointReader.checkName(reading, name, node.place(), "bench"));
        LinkChoice.BrokerFiles files = new LinkChoice.BrokerFiles(
                beside(form, "credentials", "a file with user name and password"),
                beside(form, "authority", "a file with certificates, such as 'workshop-ca.pem'"));
        if (files.authority().isPresent() && broker.startsWith("tcp:")) {
            reading.mistake(
                    form.place("authority"),
                    "'authority' stands with a broker that is reached without TLS",
                    "a URL that begins with 'ssl:'",
                    "");
        }
        return new LinkChoice.Mqtt(broker, name, beatMs(form), speed(form), files);
    }

    /** A file named from where the bench file is. */
    private Optional<String> beside(Form form, String key, String expected) {
        return form.value(key).flatMap(node -> reading.text(node, expected)).flatMap(name -> {
            try {
                return Optional.of(path.resolveSibling(name).normalize().toString());
            } catch (InvalidPathException e) {
                reading.mistake(form.place(key), Quoted.of(name) + " is no name of a file", expected, "");
                return Optional.empty();
            }
        });
    }

    private int beatMs(Form form) {
        return (int) Math.round(figure(form, "beat", BEAT, Dimension.TIME, LinkChoice.BEAT_MS_DEFAULT / 1e3) * 1e3);
    }

    private double speed(Form form) {
        return figure(form, "speed", SPEED, Dimension.COUNT, 1);
    }

    private double figure(Form form, String key, Range range, Dimension dimension, double otherwise) {
        return form.value(key)
                .flatMap(node -> figures.figure(node, range, dimension))
                .map(Quantity::base)
                .orElse(otherwise);
    }
}
