package dev.lapwing.files;

import dev.lapwing.bench.Calibration;
import dev.lapwing.bench.Input;
import dev.lapwing.bench.Point;
import dev.lapwing.bench.PointKind;
import dev.lapwing.bench.Tube;
import dev.lapwing.files.CalibrationReader.Named;
import dev.lapwing.files.Node.Entry;
import dev.lapwing.naming.Keys;
import dev.lapwing.naming.PressureKind;
import dev.lapwing.naming.Signal;
import dev.lapwing.source.Place;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Supplier;
import java.util.stream.Stream;

/** Reads which point carries which signal. */
final class InputReader {
    private static final String EXPECTED =
            "a signal such as 'brake-pipe@1', 'wire/application', 'supply/ep' or 'handle-angle'";

    private final Reading reading;
    private final PointReader points;
    private final CalibrationReader calibrations;
    private final TubeReader tubes;
    private final List<Supplier<Input>> inputs = new ArrayList<>();
    /** By key of their signals, those that have a level and were read without a mistake. */
    private final Map<String, Sampled> sampled = new LinkedHashMap<>();
    /** Every key that was read, well or not. */
    private final Set<String> keys = new LinkedHashSet<>();

    /** A signal that has a level, the point that carries it and its calibration. */
    record Sampled(Signal signal, Point point, Named calibration) {}

    /** Sampled points and where each is given a signal. */
    private final Map<String, Place> analog = new LinkedHashMap<>();

    InputReader(Reading reading, PointReader points, CalibrationReader calibrations) {
        this.reading = reading;
        this.points = points;
        this.calibrations = calibrations;
        this.tubes = new TubeReader(reading);
    }

    void read(Node node) {
        reading.entries(node, "a map from signals to points").ifPresent(map -> {
            map.entries().forEach(this::input);
            map.entries().forEach(this::checkTwin);
        });
    }

    List<Input> inputs() {
        return inputs.stream().map(Supplier::get).toList();
    }

    /** The input that a key of another map names; empty, with a mistake, if none has a level. */
    Optional<Sampled> sampled(Entry entry) {
        if (!keys.contains(entry.key())) {
            reading.unknown(entry.place(), "input", entry.key(), sampled.keySet());
        } else if (Keys.signal(entry.key()).filter(Signal::digital).isPresent()) {
            reading.mistake(entry.place(), "'" + entry.key() + "' is on or off", "an input that has a level", "");
        }
        return Optional.ofNullable(sampled.get(entry.key()));
    }

    /** Every sampled signal must be in a stream, or nobody would ever see it. */
    void checkSampled(Set<String> sampled) {
        analog.forEach((point, place) -> {
            if (!sampled.contains(point)) {
                reading.mistake(place, "no stream samples point '" + point + "'", "it in one of the 'streams'", "");
            }
        });
    }

    /** What a twin agrees with must be there. */
    private void checkTwin(Entry entry) {
        Keys.signal(entry.key())
                .filter(Signal.Twin.class::isInstance)
                .map(twin -> ((Signal.Twin) twin).of().key())
                .filter(of -> !keys.contains(of))
                .ifPresent(of -> reading.mistake(
                        entry.place(),
                        "there is no '" + of + "' that this is the twin of",
                        "an input '" + of + "', by which the signal is measured",
                        "a signal with one transducer needs no '/twin'"));
    }

    private void input(Entry entry) {
        keys.add(entry.key());
        Optional<Signal> signal = signal(entry);
        Optional<Form> form = reading.form(entry.value(), Shapes.INPUT);
        if (form.isEmpty()) {
            return;
        }
        boolean digital = signal.map(Signal::digital).orElse(false);
        Optional<Point> point = form.get()
                .value("point")
                .flatMap(node -> signal.isEmpty()
                        ? points.find(node, kind -> !kind.output(), "'analog-in' or 'digital-in'")
                        : points.find(
                                node,
                                kind -> kind == (digital ? PointKind.DIGITAL_IN : PointKind.ANALOG_IN),
                                digital
                                        ? "'digital-in', for this signal is on or off"
                                        : "'analog-in', for this signal has a level"));
        point.ifPresent(p -> points.use(p, entry.key(), entry.place()));
        if (signal.isPresent() && !digital) {
            point.ifPresent(p -> analog.put(p.name(), entry.place()));
        }
        Optional<Supplier<Calibration>> calibration = signal.flatMap(s -> calibration(s, point, form.get()))
                .map(found -> {
                    point.ifPresent(p -> sampled.put(entry.key(), new Sampled(signal.orElseThrow(), p, found)));
                    return found.calibration();
                });
        Tube tube = tubes.read(signal, form.get());
        inputs.add(() -> new Input(
                signal.orElseThrow(), point.orElseThrow().name(), calibration.map(Supplier::get), tube, entry.place()));
    }

    private Optional<Named> calibration(Signal signal, Optional<Point> point, Form form) {
        if (signal.digital()) {
            if (form.has("calibration")) {
                reading.mistake(form.place("calibration"), "'calibration' stands with a signal that is on or off");
            }
            return Optional.empty();
        }
        if (!form.has("calibration")) {
            reading.mistake(form.place(), "'calibration' is missing: '" + signal.key() + "' has a level");
            return Optional.empty();
        }
        Node node = form.value("calibration").orElseThrow();
        Optional<Named> named = calibrations.find(node);
        named.ifPresent(n -> {
            if (n.dimension() != signal.dimension()) {
                String found = "this calibration is of " + Figures.kind(n.dimension());
                reading.mistake(node.place(), found, "one of " + Figures.kind(signal.dimension()), "");
            }
            point.ifPresent(p -> n.points().forEach(pair -> points.checkCount(p, pair.left(), pair.place())));
        });
        return named;
    }

    private Optional<Signal> signal(Entry entry) {
        Optional<Signal> signal = Keys.signal(entry.key());
        if (signal.isPresent()) {
            boolean good = !(signal.get() instanceof Signal.Wire wire) || good(wire, entry.place());
            Signal single = signal.get() instanceof Signal.Twin twin ? twin.of() : signal.get();
            boolean known = !(single instanceof Signal.SupplyVoltage supply) || known(supply.name(), entry.place());
            return good && known ? signal : Optional.empty();
        }
        reading.mistake(entry.place(), "unknown signal " + Quoted.of(entry.key()), EXPECTED, meant(entry.key()));
        return Optional.empty();
    }

    /** What may have been meant: of what goes on after a signal, its twin. */
    private static String meant(String key) {
        int slash = key.indexOf('/');
        if (slash > 0 && Keys.signal(key.substring(0, slash)).isPresent()) {
            String of = key.substring(0, slash);
            return "a second transducer on '" + of + "' is '" + of + Signal.Twin.SUFFIX + "'";
        }
        List<String> kinds = Stream.concat(
                        Arrays.stream(PressureKind.values()).map(kind -> kind.text() + "@1"), Stream.of("handle-angle"))
                .toList();
        return Reading.near(key, kinds);
    }

    private boolean good(Signal.Wire wire, Place place) {
        if (wire.name().endsWith(Signal.Twin.SUFFIX)) {
            String found = Quoted.of(wire.key()) + " would be the twin of a wire";
            reading.mistake(place, found, "the twin of a signal that has a level", "a wire is on or off");
            return false;
        }
        return reading.checkName(wire.name(), place, "the name of a wire");
    }

    private boolean known(String supply, Place place) {
        if (!Signals.SUPPLIES.contains(supply)) {
            reading.unknown(place, "supply", supply, Signals.SUPPLIES);
        }
        return Signals.SUPPLIES.contains(supply);
    }
}
