package dev.lapwing.plan;

import dev.lapwing.naming.Signal;
import dev.lapwing.sequence.Condition;
import dev.lapwing.sequence.Operand;
import dev.lapwing.sequence.SignalRef;
import dev.lapwing.sequence.VehicleRef;
import java.util.ArrayList;
import java.util.List;
import java.util.function.BiFunction;

/** Resolves conditions. {@code every} vehicle means all of them, unless an expectation goes through them in turn. */
final class Conditions {

    private final int vehicles;
    private final Signals signals;
    private final Figures figures;
    private final Connections connections;

    Conditions(int vehicles, Signals signals, Figures figures, Connections connections) {
        this.vehicles = vehicles;
        this.signals = signals;
        this.figures = figures;
        this.connections = connections;
    }

    PlannedCondition resolve(Condition condition, Scope scope) {
        if (condition instanceof Condition.Above above) {
            return level(above.signal(), above.level(), scope, PlannedCondition.Above::new);
        }
        if (condition instanceof Condition.Below below) {
            return level(below.signal(), below.level(), scope, PlannedCondition.Below::new);
        }
        if (condition instanceof Condition.WireIs wire) {
            return new PlannedCondition.WireIs(signals.wire(wire.wire()), wire.on());
        }
        if (condition instanceof Condition.AllOf all) {
            return new PlannedCondition.AllOf(resolved(all.parts(), scope));
        }
        return new PlannedCondition.AnyOf(resolved(((Condition.AnyOf) condition).parts(), scope));
    }

    static boolean everyVehicle(SignalRef ref) {
        return ref instanceof SignalRef.Pressure pressure && pressure.vehicle() instanceof VehicleRef.Every;
    }

    private PlannedCondition level(
            SignalRef ref, Operand level, Scope scope, BiFunction<Signal, Double, PlannedCondition> kind) {
        if (everyVehicle(ref) && scope.every().isEmpty()) {
            List<PlannedCondition> each = new ArrayList<>();
            for (int vehicle = 1; vehicle <= vehicles; vehicle++) {
                each.add(level(ref, level, scope.at(vehicle), kind));
            }
            return new PlannedCondition.AllOf(each);
        }
        Signal signal = signals.level(ref, scope);
        double value = figures.value(level, scope, signal.dimension());
        connections.measurable(signal, value, level.place());
        return kind.apply(signal, value);
    }

    private List<PlannedCondition> resolved(List<Condition> parts, Scope scope) {
        return parts.stream().map(part -> resolve(part, scope)).toList();
    }
}
