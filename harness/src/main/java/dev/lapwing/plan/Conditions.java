package dev.lapwing.plan;

import dev.lapwing.naming.Signal;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.sequence.Condition;
import dev.lapwing.sequence.Operand;
import dev.lapwing.sequence.SignalRef;
import dev.lapwing.sequence.VehicleRef;
import dev.lapwing.source.Mistakes;
import dev.lapwing.source.Place;
import java.util.ArrayList;
import java.util.List;
import java.util.function.BiFunction;

/**
 * Resolves conditions. {@code every} vehicle means all of them, unless an expectation goes through them in turn. What
 * is not so is turned round down to its levels and wires, so that a resolved condition is easier wherever one of them
 * is.
 */
final class Conditions {

    private final int vehicles;
    private final Signals signals;
    private final Figures figures;
    private final Connections connections;
    private final Mistakes mistakes;

    Conditions(int vehicles, Signals signals, Figures figures, Connections connections, Mistakes mistakes) {
        this.vehicles = vehicles;
        this.signals = signals;
        this.figures = figures;
        this.connections = connections;
        this.mistakes = mistakes;
    }

    /** Of what is seen at once; it is a mistake if it looks ahead. */
    PlannedCondition resolve(Condition condition, Scope scope) {
        ahead(condition)
                .forEach(place -> mistakes.add(
                        place,
                        "this looks ahead, and here only what is so at once can be told",
                        "a condition of levels and wires",
                        "ask what looks ahead in a comes-true or a stays-true"));
        return resolveAhead(condition, scope);
    }

    /** Of what may look ahead. */
    PlannedCondition resolveAhead(Condition condition, Scope scope) {
        return resolved(condition, scope, false);
    }

    private PlannedCondition resolved(Condition condition, Scope scope, boolean turned) {
        if (condition instanceof Condition.Above above) {
            return level(above.signal(), above.level(), scope, turned, !turned);
        } else if (condition instanceof Condition.Below below) {
            return level(below.signal(), below.level(), scope, turned, turned);
        } else if (condition instanceof Condition.WireIs wire) {
            return new PlannedCondition.WireIs(signals.wire(wire.wire()), wire.on() != turned);
        } else if (condition instanceof Condition.Not not) {
            return resolved(not.condition(), scope, !turned);
        } else if (condition instanceof Condition.AllOf all) {
            return together(!turned, resolved(all.parts(), scope, turned));
        } else if (condition instanceof Condition.AnyOf any) {
            return together(turned, resolved(any.parts(), scope, turned));
        } else if (condition instanceof Condition.Always always) {
            return bounded(
                    !turned,
                    always.from(),
                    always.to(),
                    resolved(always.holds(), scope, turned),
                    scope,
                    always.place());
        } else if (condition instanceof Condition.Eventually soon) {
            return bounded(turned, soon.from(), soon.to(), resolved(soon.holds(), scope, turned), scope, soon.place());
        }
        Condition.Until until = (Condition.Until) condition;
        double[] bounds = bounds(until.from(), until.to(), scope, until.place());
        PlannedCondition.Until planned = new PlannedCondition.Until(
                bounds[0], bounds[1], resolved(until.holds(), scope, false), resolved(until.then(), scope, false));
        return turned ? new PlannedCondition.Not(planned) : planned;
    }

    private List<PlannedCondition> resolved(List<Condition> parts, Scope scope, boolean turned) {
        return parts.stream().map(part -> resolved(part, scope, turned)).toList();
    }

    private static PlannedCondition together(boolean all, List<PlannedCondition> parts) {
        return all ? new PlannedCondition.AllOf(parts) : new PlannedCondition.AnyOf(parts);
    }

    private PlannedCondition bounded(
            boolean always, Operand from, Operand to, PlannedCondition holds, Scope scope, Place place) {
        double[] bounds = bounds(from, to, scope, place);
        return always
                ? new PlannedCondition.Always(bounds[0], bounds[1], holds)
                : new PlannedCondition.Eventually(bounds[0], bounds[1], holds);
    }

    private double[] bounds(Operand from, Operand to, Scope scope, Place place) {
        double start = figures.seconds(from, scope);
        double end = figures.patience(to, scope);
        if (end < start) {
            mistakes.add(
                    place,
                    "'to' (" + figures.text().quantity(end, Dimension.TIME) + ") is before 'from' ("
                            + figures.text().quantity(start, Dimension.TIME) + ")",
                    "two times, the later one as 'to'",
                    "");
        }
        return new double[] {start, end};
    }

    static boolean everyVehicle(SignalRef ref) {
        return ref instanceof SignalRef.Pressure pressure && pressure.vehicle() instanceof VehicleRef.Every;
    }

    private PlannedCondition level(SignalRef ref, Operand level, Scope scope, boolean turned, boolean above) {
        if (everyVehicle(ref) && scope.every().isEmpty()) {
            List<PlannedCondition> each = new ArrayList<>();
            for (int vehicle = 1; vehicle <= vehicles; vehicle++) {
                each.add(level(ref, level, scope.at(vehicle), turned, above));
            }
            return together(!turned, each);
        }
        Signal signal = signals.level(ref, scope);
        double value = figures.value(level, scope, signal.dimension());
        connections.measurable(signal, value, level.place());
        BiFunction<Signal, Double, PlannedCondition> kind =
                above ? PlannedCondition.Above::new : PlannedCondition.Below::new;
        return kind.apply(signal, value);
    }

    /** Where a condition looks ahead. */
    private static List<Place> ahead(Condition condition) {
        if (condition instanceof Condition.AllOf all) {
            return all.parts().stream().flatMap(part -> ahead(part).stream()).toList();
        } else if (condition instanceof Condition.AnyOf any) {
            return any.parts().stream().flatMap(part -> ahead(part).stream()).toList();
        } else if (condition instanceof Condition.Not not) {
            return ahead(not.condition());
        } else if (condition instanceof Condition.Always always) {
            return List.of(always.place());
        } else if (condition instanceof Condition.Eventually soon) {
            return List.of(soon.place());
        } else if (condition instanceof Condition.Until until) {
            return List.of(until.place());
        }
        return List.of();
    }
}
