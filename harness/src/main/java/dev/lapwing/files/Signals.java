package dev.lapwing.files;

import dev.lapwing.naming.PressureKind;
import dev.lapwing.naming.Signal;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.sequence.Operand;
import dev.lapwing.sequence.SignalRef;
import dev.lapwing.sequence.VehicleRef;
import dev.lapwing.source.NearestName;
import dev.lapwing.source.Place;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;

/** Reads signals and vehicles as steps refer to them. */
final class Signals {
    static final List<String> SUPPLIES = List.of("ep", "control");
    /** What signals begin with that are no pressures. */
    private static final List<String> NAMED = List.of("wire", "supply", "handle-angle");
    /** Nobody meant anything known by a longer text. */
    private static final int NAME_MOST = 64;

    static final Map<String, PressureKind> PRESSURES = Reading.byText(PressureKind.values(), PressureKind::text);
    private static final String EXPECTED =
            "a signal such as 'brake-pipe at last', 'wire application', 'supply ep' or 'handle-angle'";
    private static final String VEHICLE = "a vehicle: 'first', 'last', a number or a loop's variable";

    private final Reading reading;
    private final Operands operands;

    Signals(Reading reading, Operands operands) {
        this.reading = reading;
        this.operands = operands;
    }

    /** Any signal. */
    SignalRef signal(Node node, Scope scope) {
        return reading.scalar(node, EXPECTED)
                .flatMap(scalar -> signal(scalar.text(), scalar.place(), scope))
                .orElse(none(node.place()));
    }

    /** What stands for a signal that could not be read, which has its mistake already: a wire without a name. */
    static SignalRef none(Place place) {
        return new SignalRef.Wire("", place);
    }

    /** A signal with a level, which is any but a wire. */
    SignalRef level(Node node, Scope scope) {
        SignalRef signal = signal(node, scope);
        if (signal instanceof SignalRef.Wire wire && !wire.name().isEmpty()) {
            reading.mistake(
                    wire.place(),
                    "wire '" + wire.name() + "' has no level: it is on or off",
                    "a signal with a level",
                    "");
        }
        return signal;
    }

    /** A wire by its bare name. */
    SignalRef.Wire wire(Node node) {
        return new SignalRef.Wire(reading.name(node, "the name of a wire").orElse(""), node.place());
    }

    Optional<SignalRef> signal(String text, Place place, Scope scope) {
        String[] words = text.split("\\s+");
        switch (words[0]) {
            case "handle-angle":
                return one(words, 1, text, place).map(w -> new SignalRef.HandleAngle(place));
            case "wire":
                return one(words, 2, text, place)
                        .filter(w -> reading.checkName(w[1], place, "the name of a wire"))
                        .map(w -> new SignalRef.Wire(w[1], place));
            case "supply":
                return one(words, 2, text, place)
                        .filter(w -> checkSupply(w[1], place))
                        .map(w -> new SignalRef.SupplyVoltage(w[1], place));
            default:
                return pressure(words, text, place, scope);
        }
    }

    boolean checkSupply(String name, Place place) {
        if (!SUPPLIES.contains(name)) {
            reading.unknown(place, "supply", name, SUPPLIES);
        }
        return SUPPLIES.contains(name);
    }

    private Optional<String[]> one(String[] words, int due, String text, Place place) {
        if (words.length != due) {
            reading.mistake(place, Quoted.of(text) + " is no signal", EXPECTED, "");
        }
        return words.length == due ? Optional.of(words) : Optional.empty();
    }

    private Optional<SignalRef> pressure(String[] words, String text, Place place, Scope scope) {
        PressureKind kind = PRESSURES.get(words[0]);
        if (text.endsWith(Signal.Twin.SUFFIX)) {
            String hint = "every run holds the twin against its signal";
            reading.mistake(place, Quoted.of(text) + " names a twin", "the signal alone", hint);
            return Optional.empty();
        }
        if (kind == null) {
            reading.mistake(place, "unknown signal " + Quoted.of(text), EXPECTED, near(text));
            return Optional.empty();
        }
        if (words.length != 3 || !words[1].equals("at")) {
            reading.mistake(
                    place,
                    Quoted.of(text) + " names no vehicle",
                    "a vehicle, such as '" + kind.text() + " at last'",
                    "");
            return Optional.empty();
        }
        return vehicle(words[2], place, scope, true).map(vehicle -> new SignalRef.Pressure(kind, vehicle, place));
    }

    /**
     * What was probably meant, with its vehicle or name where one was written: also of {@code brake-pipe@4} and
     * {@code wire/traction}, as bench files have them, and of {@code brake pipe at last}.
     */
    private static String near(String text) {
        if (text.length() > NAME_MOST) {
            return "";
        }
        List<String> known =
                Stream.concat(PRESSURES.keySet().stream(), NAMED.stream()).toList();
        String[] parts = text.replace("@", " at ").replace('/', ' ').split("\\s+at\\s+", 2);
        String[] words = parts[0].split("\\s+", 2);
        Optional<String> whole = NearestName.of(parts[0].replaceAll("[\\s_]+", "-"), known)
                .map(name -> parts.length == 1 ? name : name + " at " + parts[1]);
        return whole.or(() -> NearestName.of(words[0], known)
                        .map(name -> words.length == 2 && NAMED.contains(name) ? name + " " + words[1] : name))
                .map(name -> "did you mean '" + name + "'?")
                .orElse("");
    }

    /** One vehicle, never {@code every}. */
    VehicleRef vehicle(Node node, Scope scope) {
        return reading.scalar(node, VEHICLE)
                .flatMap(scalar -> vehicle(scalar.text(), scalar.place(), scope, false))
                .orElse(new VehicleRef.First());
    }

    private Optional<VehicleRef> vehicle(String text, Place place, Scope scope, boolean everyToo) {
        if (text.equals("first")) {
            return Optional.of(new VehicleRef.First());
        }
        if (text.equals("last")) {
            return Optional.of(new VehicleRef.Last());
        }
        if (text.equals("every") && everyToo) {
            return Optional.of(new VehicleRef.Every());
        }
        if (text.matches("[1-9]\\d?")) {
            return Optional.of(new VehicleRef.Numbered(Integer.parseInt(text)));
        }
        if (text.startsWith("<")) {
            return operands.variable(text, place, scope).map(name -> {
                checkNumbers(name, place, scope);
                return new VehicleRef.Looped(name);
            });
        }
        List<String> words = everyToo ? List.of("first", "last", "every") : List.of("first", "last");
        reading.mistake(
                place,
                Quoted.of(text) + " is no vehicle",
                everyToo ? VEHICLE + ", or 'every'" : VEHICLE,
                Reading.near(text, words));
        return Optional.empty();
    }

    private void checkNumbers(String name, Place place, Scope scope) {
        boolean numbers = scope.loops().getOrDefault(name, List.of()).stream().allMatch(Signals::isNumber);
        if (!numbers) {
            reading.mistake(
                    place, "'<" + name + ">' does not stand for vehicles", "a loop over numbers such as [1, 2, 3]", "");
        }
    }

    private static boolean isNumber(Operand value) {
        return value instanceof Operand.Written written && written.quantity().dimension() == Dimension.COUNT;
    }

    /** The kinds of figure that a level of that signal may be written as; of what has none, of any signal. */
    static Dimension[] dimensions(SignalRef signal) {
        if (signal instanceof SignalRef.Wire) {
            return new Dimension[] {Dimension.PRESSURE, Dimension.VOLTAGE, Dimension.NOMINAL_SHARE, Dimension.ANGLE};
        }
        if (signal instanceof SignalRef.SupplyVoltage) {
            return new Dimension[] {Dimension.VOLTAGE, Dimension.NOMINAL_SHARE};
        }
        return new Dimension[] {signal instanceof SignalRef.HandleAngle ? Dimension.ANGLE : Dimension.PRESSURE};
    }
}
