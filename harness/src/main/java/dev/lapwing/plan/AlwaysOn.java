package dev.lapwing.plan;

import dev.lapwing.finding.Limit;
import dev.lapwing.fixture.Ability;
import dev.lapwing.fixture.Figure;
import dev.lapwing.fixture.Wiring;
import dev.lapwing.naming.Actuator;
import dev.lapwing.naming.PressureKind;
import dev.lapwing.naming.Signal;
import dev.lapwing.naming.SwitchKind;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.sequence.AlwaysProperty;
import dev.lapwing.sequence.Sequence;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;

/** The always-on properties that are watched on this unit and bench, and why the others are not. */
final class AlwaysOn {

    private static final Actuator HANDLE = new Actuator.Handle();

    private final Lookup lookup;
    private final List<Throughout> watched = new ArrayList<>();
    private final List<Plan.LeftOut> left = new ArrayList<>();

    AlwaysOn(Lookup lookup, Sequence sequence) {
        this.lookup = lookup;
        for (AlwaysProperty property : AlwaysProperty.values()) {
            Optional<String> whyNot = sequence.breaks().contains(property)
                    ? Optional.of("the sequence breaks it on purpose")
                    : whyNot(property, demand(property));
            whyNot.ifPresentOrElse(
                    why -> left.add(
                            new Plan.LeftOut(Throughout.id(property), property.sentence(), sequence.file(), why)),
                    () -> watched.add(new Throughout(property, limits(property, demand(property)))));
        }
    }

    List<Throughout> watched() {
        return watched;
    }

    List<Plan.LeftOut> left() {
        return left;
    }

    /** As in "the unit has no …". */
    static String spoken(Ability ability) {
        return ability.text().replace('-', ' ');
    }

    /**
     * What it takes to watch a property.
     *
     * @param abilities what the unit must have
     * @param wires     wires that must be read
     * @param pressures pressures that must be read, at one vehicle at least
     * @param supplies  supply voltages that must be read
     * @param drives    what the bench must command, as the property speaks of it
     * @param figures   kinds of its figures, in the property's order
     */
    private record Demand(
            List<Ability> abilities,
            List<String> wires,
            List<PressureKind> pressures,
            List<String> supplies,
            List<Actuator> drives,
            List<Dimension> figures) {}

    private static Demand demand(AlwaysProperty property) {
        List<PressureKind> pipe = List.of(PressureKind.BRAKE_PIPE);
        List<PressureKind> cylinder = List.of(PressureKind.BRAKE_CYLINDER);
        List<PressureKind> both = List.of(PressureKind.BRAKE_PIPE, PressureKind.BRAKE_CYLINDER);
        List<Ability> ep = List.of(Ability.EP_BRAKE);
        List<Ability> automatic = List.of(Ability.AUTOMATIC_BRAKE);
        List<Dimension> time = List.of(Dimension.TIME);
        List<Dimension> pressure = List.of(Dimension.PRESSURE);
        List<Actuator> handle = List.of(HANDLE);
        return switch (property) {
            case APPLICATION_ONLY_WITH_HOLDING ->
                new Demand(ep, List.of("application", "holding"), List.of(), List.of(), List.of(), time);
            case NO_TRACTION_WITHOUT_DEADMAN ->
                new Demand(
                        List.of(Ability.DEADMAN, Ability.TRACTION_INTERLOCK),
                        List.of("traction"),
                        List.of(),
                        List.of(),
                        List.of(
                                of(SwitchKind.DEADMAN, ""),
                                of(SwitchKind.REVERSER, "forward"),
                                of(SwitchKind.REVERSER, "reverse")),
                        time);
            case NO_CHARGE_OUT_OF_RELEASE ->
                new Demand(
                        automatic,
                        List.of(),
                        pipe,
                        List.of(),
                        List.of(HANDLE, of(SwitchKind.MASTER_SWITCH, "")),
                        pressure);
            case CYLINDER_HOLDS_IN_LAP ->
                new Demand(List.of(), List.of(), cylinder, List.of(), handle, List.of(Dimension.PRESSURE_RATE));
            case CYLINDER_BELOW_LIMIT -> new Demand(List.of(), List.of(), cylinder, List.of(), List.of(), pressure);
            case DUMP_EMPTIES_THE_PIPE ->
                new Demand(automatic, List.of(), pipe, List.of(), handle, List.of(Dimension.TIME, Dimension.PRESSURE));
            case EP_RELEASE_EMPTIES_THE_CYLINDER -> new Demand(ep, List.of(), both, List.of(), handle, pressure);
            case VIGILANCE_STAGES_IN_ORDER ->
                new Demand(
                        List.of(Ability.VIGILANCE),
                        List.of("warning-light", "warning-sounder"),
                        pipe,
                        List.of(),
                        List.of(),
                        time);
            case LAMP_ONLY_WITH_SUPPLY ->
                new Demand(
                        List.of(Ability.EP_SUPPLY_LAMP),
                        List.of("ep-supply-lamp"),
                        List.of(),
                        List.of("ep"),
                        List.of(),
                        List.of(Dimension.VOLTAGE, Dimension.TIME));
        };
    }

    private static Actuator of(SwitchKind kind, String of) {
        return new Actuator.Switch(kind, of);
    }

    private Optional<String> whyNot(AlwaysProperty property, Demand demand) {
        Wiring wiring = lookup.subject().wiring();
        Optional<String> ability = demand.abilities().stream()
                .filter(needed -> !wiring.abilities().contains(needed))
                .map(needed -> "the unit has no " + spoken(needed))
                .findFirst();
        Optional<String> figure = property.figures().stream()
                .filter(name -> !lookup.subject().acceptance().figures().containsKey(name))
                .map(name -> "the fixture has no figure '" + name + "'")
                .findFirst();
        return ability.or(() -> figure).or(() -> unread(demand)).or(() -> undriven(demand));
    }

    private Optional<String> unread(Demand demand) {
        Wiring wiring = lookup.subject().wiring();
        List<Signal> signals = new ArrayList<>();
        demand.wires().forEach(wire -> signals.add(new Signal.Wire(wire)));
        demand.supplies().forEach(supply -> signals.add(new Signal.SupplyVoltage(supply)));
        Optional<String> pressure = demand.pressures().stream()
                .filter(kind -> IntStream.rangeClosed(1, wiring.vehicles())
                        .noneMatch(vehicle -> lookup.connections().carries(new Signal.Pressure(kind, vehicle))))
                .map(kind -> "the bench carries no " + kind.text().replace('-', ' '))
                .findFirst();
        return signals.stream()
                .filter(signal -> !lookup.connections().carries(signal))
                .map(signal -> "the bench carries no " + signal.spoken())
                .findFirst()
                .or(() -> pressure);
    }

    private Optional<String> undriven(Demand demand) {
        return demand.drives().stream()
                .filter(actuator -> !lookup.connections().drives(actuator))
                .map(actuator -> "the bench does not drive '" + actuator.key() + "'")
                .findFirst();
    }

    private Map<String, Limit> limits(AlwaysProperty property, Demand demand) {
        Map<String, Limit> limits = new LinkedHashMap<>();
        for (int i = 0; i < property.figures().size(); i++) {
            String name = property.figures().get(i);
            Figure figure = lookup.subject().acceptance().figures().get(name);
            Limit limit = lookup.figures().limit(figure);
            Dimension due = demand.figures().get(i);
            if (limit.dimension() != due) {
                lookup.mistake(
                        figure.place(),
                        "'" + name + "' is " + FigureText.kind(figure.dimension()),
                        due.example(),
                        "it is what '" + property.text() + "' is judged by");
            } else if (limit.upper().isEmpty()) {
                lookup.mistake(
                        figure.place(),
                        "'" + name + "' has no upper end",
                        "at-most or value",
                        "it is what '" + property.text() + "' is judged by");
            } else if (due == Dimension.PRESSURE) {
                measurable(demand, limit, figure);
            }
            limits.put(name, limit);
        }
        return limits;
    }

    private void measurable(Demand demand, Limit limit, Figure figure) {
        Wiring wiring = lookup.subject().wiring();
        for (PressureKind kind : demand.pressures()) {
            for (int vehicle = 1; vehicle <= wiring.vehicles(); vehicle++) {
                lookup.connections().measurable(new Signal.Pressure(kind, vehicle), 0, limit, figure.place());
            }
        }
    }
}
