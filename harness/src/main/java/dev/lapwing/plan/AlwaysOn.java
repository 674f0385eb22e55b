package dev.lapwing.plan;

import dev.lapwing.finding.Limit;
import dev.lapwing.fixture.Figure;
import dev.lapwing.fixture.Wiring;
import dev.lapwing.naming.Ability;
import dev.lapwing.naming.PressureKind;
import dev.lapwing.naming.Signal;
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

    private final Lookup lookup;
    private final List<Throughout> watched = new ArrayList<>();
    private final List<Plan.LeftOut> left = new ArrayList<>();

    AlwaysOn(Lookup lookup, Sequence sequence) {
        this.lookup = lookup;
        for (AlwaysProperty property : AlwaysProperty.values()) {
            Optional<String> whyNot = sequence.breaks().contains(property)
                    ? Optional.of("the sequence breaks it on purpose")
                    : whyNot(property, AlwaysDemand.of(property));
            // The bench's own checks are a bonus of fixtures that have figures for them, and of benches that have
            // twins.
            if (property.ofBench() && !(hasFigures(property) && hasChannels(property))) {
                continue;
            }
            whyNot.ifPresentOrElse(
                    why -> left.add(
                            new Plan.LeftOut(Throughout.id(property), property.sentence(), sequence.file(), why)),
                    () -> watched.add(new Throughout(property, limits(property, AlwaysDemand.of(property)))));
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

    private Optional<String> whyNot(AlwaysProperty property, AlwaysDemand demand) {
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

    private boolean hasFigures(AlwaysProperty property) {
        return lookup.subject().acceptance().figures().keySet().containsAll(property.figures());
    }

    private boolean hasChannels(AlwaysProperty property) {
        return property != AlwaysProperty.BENCH_TWINS_AGREE
                || lookup.connections().twins();
    }

    private Optional<String> unread(AlwaysDemand demand) {
        Wiring wiring = lookup.subject().wiring();
        Optional<String> pressure = demand.pressures().stream()
                .filter(kind -> IntStream.rangeClosed(1, wiring.vehicles())
                        .noneMatch(vehicle -> lookup.connections().carries(new Signal.Pressure(kind, vehicle))))
                .map(kind -> "the bench reads no " + kind.text().replace('-', ' '))
                .findFirst();
        Optional<String> wire = demand.signals().stream()
                .filter(signal ->
                        signal instanceof Signal.Wire w && !wiring.wires().contains(w.name()))
                .map(signal -> "the unit has no " + signal.spoken())
                .findFirst();
        Optional<String> signal = demand.signals().stream()
                .filter(needed -> !lookup.connections().carries(needed))
                .map(needed -> "the bench does not read the " + needed.spoken())
                .findFirst();
        return wire.or(() -> signal).or(() -> pressure);
    }

    private Optional<String> undriven(AlwaysDemand demand) {
        return demand.drives().stream()
                .filter(actuator -> !lookup.connections().drives(actuator))
                .map(actuator -> "the bench does not drive '" + actuator.key() + "'")
                .findFirst();
    }

    private Map<String, Limit> limits(AlwaysProperty property, AlwaysDemand demand) {
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

    private void measurable(AlwaysDemand demand, Limit limit, Figure figure) {
        Wiring wiring = lookup.subject().wiring();
        for (PressureKind kind : demand.pressures()) {
            for (int vehicle = 1; vehicle <= wiring.vehicles(); vehicle++) {
                lookup.connections().measurable(new Signal.Pressure(kind, vehicle), 0, limit, figure.place());
            }
        }
    }
}
