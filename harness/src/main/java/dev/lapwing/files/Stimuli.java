package dev.lapwing.files;

import dev.lapwing.files.Node.Entry;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.Quantity;
import dev.lapwing.sequence.Operand;
import dev.lapwing.sequence.Stimulus;
import dev.lapwing.sequence.Stimulus.Direction;
import dev.lapwing.sequence.Stimulus.PipeName;
import dev.lapwing.sequence.VehicleRef;
import dev.lapwing.source.Place;
import dev.lapwing.unit.UnitWire;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.BiFunction;
import java.util.function.Function;

/** Reads what the bench does. */
final class Stimuli {
    /** No unit has more notches: there are no wires for them. */
    static final int NOTCH_MAX = UnitWire.NOTCHES_MAX;

    private static final Map<String, PipeName> PIPES = Reading.byText(PipeName.values(), PipeName::text);
    private static final Map<String, Direction> DIRECTIONS =
            Reading.byText(Direction.values(), direction -> direction.name().toLowerCase(Locale.ROOT));

    private final Reading reading;
    private final Operands operands;
    private final Signals signals;

    Stimuli(Reading reading, Operands operands, Signals signals) {
        this.reading = reading;
        this.operands = operands;
        this.signals = signals;
    }

    /** The stimuli of one entry, whose key is one of {@link Shapes#STIMULI}; none if it could not be read. */
    List<Stimulus> stimuli(Entry entry, Scope scope) {
        return switch (entry.key()) {
            case "supply" -> supplies(entry, scope);
            case "feed-wire" -> feeds(entry);
            case "handle" -> handle(entry, scope).stream().toList();
            default -> one(entry, scope).stream().toList();
        };
    }

    private Optional<Stimulus> one(Entry entry, Scope scope) {
        Place place = entry.place();
        return switch (entry.key()) {
            case "deadman" -> either(entry, "held", "released", held -> new Stimulus.Deadman(held, place));
            case "acknowledgement" ->
                either(entry, "pressed", "let-go", pressed -> new Stimulus.Acknowledgement(pressed, place));
            case "master-switch" -> either(entry, "on", "off", on -> new Stimulus.MasterSwitch(on, place));
            case "other-cab" -> either(entry, "charging", "shut", on -> new Stimulus.OtherCabCharge(on, place));
            case "reverser" ->
                reading.choice(entry.value(), "position of the reverser", DIRECTIONS)
                        .<Stimulus>map(direction -> new Stimulus.Reverser(direction, place));
            case "power-handle" -> notch(entry.value()).<Stimulus>map(notch -> new Stimulus.PowerHandle(notch, place));
            case "speed" -> Optional.of(new Stimulus.Speed(speed(entry.value(), scope), place));
            case "alarm-valve" -> valve(entry, scope, (at, open) -> new Stimulus.AlarmValve(at, open, place));
            case "crew-valve" -> valve(entry, scope, (at, open) -> new Stimulus.CrewValve(at, open, place));
            default -> coupling(entry, scope);
        };
    }

    private Optional<Stimulus> either(Entry entry, String yes, String no, Function<Boolean, Stimulus> build) {
        return reading.choice(entry.value(), "state of '" + entry.key() + "'", Reading.either(yes, no))
                .map(build);
    }

    private Optional<Stimulus> handle(Entry entry, Scope scope) {
        if (!(entry.value() instanceof Node.Entries map)) {
            return position(entry.value())
                    .map(position -> new Stimulus.MoveHandle(position, Optional.empty(), entry.place()));
        }
        boolean along = map.entry("at").isPresent() || map.entry("of").isPresent();
        return reading.form(map, along ? Shapes.HANDLE_ALONG : Shapes.HANDLE_OVER)
                .flatMap(form -> along ? along(form, scope, entry.place()) : to(form, scope, entry.place()));
    }

    private Optional<Stimulus> to(Form form, Scope scope, Place place) {
        Optional<Operand> over = form.value("over").map(node -> operands.time(node, scope));
        return form.value("to").flatMap(this::position).map(to -> new Stimulus.MoveHandle(to, over, place));
    }

    private Optional<Stimulus> along(Form form, Scope scope, Place place) {
        Optional<Operand> over = form.value("over").map(node -> operands.time(node, scope));
        Optional<Operand> share =
                form.value("at").map(node -> operands.value(node, scope, new Range(0, 1), Dimension.RATIO));
        Optional<String> arc = form.value("of").flatMap(node -> reading.name(node, "the name of an arc of the handle"));
        return share.flatMap(at -> arc.map(of -> new Stimulus.MoveHandleAlong(at, of, over, place)));
    }

    private Optional<String> position(Node node) {
        return reading.choice(
                node,
                "position of the handle",
                Reading.byText(Shapes.POSITIONS.required().toArray(String[]::new), p -> p));
    }

    private Optional<Integer> notch(Node node) {
        String expected = "'off' or a notch such as 'notch 3'";
        return reading.scalar(node, expected).flatMap(scalar -> {
            if (scalar.text().equals("off")) {
                return Optional.of(0);
            }
            if (scalar.text().matches("notch +[1-9]\\d?")) {
                int notch = Integer.parseInt(scalar.text().substring(6).strip());
                if (notch <= NOTCH_MAX) {
                    return Optional.of(notch);
                }
            }
            reading.mistake(node.place(), Quoted.of(scalar.text()) + " is no notch", expected, "");
            return Optional.empty();
        });
    }

    private Operand speed(Node node, Scope scope) {
        return operands.value(node, scope, Range.of(Dimension.SPEED), Dimension.SPEED);
    }

    private List<Stimulus> supplies(Entry entry, Scope scope) {
        List<Stimulus> read = new ArrayList<>();
        reading.entries(entry.value(), "a map from a supply to its level, such as {ep: off}")
                .ifPresent(map -> map.entries().stream()
                        .filter(supply -> signals.checkSupply(supply.key(), supply.place()))
                        .forEach(supply -> read.add(
                                new Stimulus.Supply(supply.key(), level(supply.value(), scope), entry.place()))));
        return read;
    }

    private Operand level(Node node, Scope scope) {
        if (node instanceof Node.Scalar scalar
                && (scalar.text().equals("on") || scalar.text().equals("off"))) {
            double share = scalar.text().equals("on") ? 1 : 0;
            return new Operand.Written(new Quantity(share, Dimension.NOMINAL_SHARE), node.place());
        }
        return operands.value(node, scope, new Range(0, 2000), Dimension.NOMINAL_SHARE, Dimension.VOLTAGE);
    }

    private List<Stimulus> feeds(Entry entry) {
        List<Stimulus> read = new ArrayList<>();
        reading.entries(entry.value(), "a map from a wire to its state, such as {application: on}")
                .ifPresent(map -> map.entries().stream()
                        .filter(wire -> reading.checkName(wire.key(), wire.place(), "the name of a wire"))
                        .forEach(wire -> reading.choice(wire.value(), "state of a wire", Reading.either("on", "off"))
                                .ifPresent(on -> read.add(new Stimulus.WireFeed(wire.key(), on, entry.place())))));
        return read;
    }

    private Optional<Stimulus> valve(Entry entry, Scope scope, BiFunction<VehicleRef, Boolean, Stimulus> build) {
        return reading.form(entry.value(), Shapes.VALVE).flatMap(form -> {
            Optional<VehicleRef> at = form.value("at").map(node -> signals.vehicle(node, scope));
            Optional<Boolean> open = state(form, "valve", "open", "shut");
            return at.flatMap(vehicle -> open.map(is -> build.apply(vehicle, is)));
        });
    }

    /** What happens between two vehicles. */
    private Optional<Stimulus> coupling(Entry entry, Scope scope) {
        Place place = entry.place();
        return switch (entry.key()) {
            case "hose" ->
                reading.form(entry.value(), Shapes.HOSE).flatMap(form -> {
                    Optional<Boolean> burst = state(form, "hose", "burst", "whole");
                    VehicleRef behind = behind(form, scope);
                    return pipe(form).flatMap(of -> burst.map(is -> new Stimulus.HoseBurst(of, behind, is, place)));
                });
            case "cock" ->
                reading.form(entry.value(), Shapes.COCK).flatMap(form -> {
                    Optional<Boolean> shut = state(form, "cock", "shut", "open");
                    VehicleRef behind = behind(form, scope);
                    return pipe(form).flatMap(of -> shut.map(is -> new Stimulus.Cock(of, behind, is, place)));
                });
            case "coupling" ->
                reading.form(entry.value(), Shapes.COUPLING).flatMap(form -> {
                    VehicleRef behind = behind(form, scope);
                    return state(form, "coupling", "parted", "joined")
                            .map(parted -> new Stimulus.Parting(behind, parted, place));
                });
            default -> throw new IllegalArgumentException("no stimulus " + entry.key());
        };
    }

    private Optional<Boolean> state(Form form, String what, String yes, String no) {
        return form.value("to").flatMap(node -> reading.choice(node, "state of a " + what, Reading.either(yes, no)));
    }

    private Optional<PipeName> pipe(Form form) {
        return form.value("of").flatMap(node -> reading.choice(node, "pipe", PIPES));
    }

    private VehicleRef behind(Form form, Scope scope) {
        return form.value("behind").map(node -> signals.vehicle(node, scope)).orElse(new VehicleRef.First());
    }
}
