package dev.lapwing.plan;

import dev.lapwing.naming.Signal;
import dev.lapwing.sequence.Condition;
import dev.lapwing.sequence.Operand;
import dev.lapwing.sequence.SignalRef;
import dev.lapwing.sequence.VehicleRef;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

/** Signals, vehicles and conditions as people say them; a name that means nothing is shown as it is written. */
record SignalText(FigureText figures, int vehicles) {

    String signal(SignalRef ref, Scope scope) {
        if (ref instanceof SignalRef.Wire wire) {
            return new Signal.Wire(wire.name()).spoken();
        }
        if (ref instanceof SignalRef.SupplyVoltage supply) {
            return new Signal.SupplyVoltage(supply.name()).spoken();
        }
        if (ref instanceof SignalRef.Pressure pressure) {
            return pressure.kind().text().replace('-', ' ') + " at " + vehicle(pressure.vehicle(), scope);
        }
        return new Signal.HandleAngle().spoken();
    }

    String vehicle(VehicleRef ref, Scope scope) {
        if (ref instanceof VehicleRef.First) {
            return "vehicle 1";
        }
        if (ref instanceof VehicleRef.Last) {
            return "vehicle " + vehicles;
        }
        if (ref instanceof VehicleRef.Numbered numbered) {
            return "vehicle " + numbered.number();
        }
        if (ref instanceof VehicleRef.Looped looped) {
            return looped(looped.variable(), scope);
        }
        return scope.every().isPresent() ? "vehicle " + scope.every().getAsInt() : "every vehicle";
    }

    String condition(Condition condition, Scope scope) {
        if (condition instanceof Condition.Above above) {
            return signal(above.signal(), scope) + " above " + figures.value(above.level(), scope);
        }
        if (condition instanceof Condition.Below below) {
            return signal(below.signal(), scope) + " below " + figures.value(below.level(), scope);
        }
        if (condition instanceof Condition.WireIs wire) {
            return signal(wire.wire(), scope) + (wire.on() ? " on" : " off");
        }
        if (condition instanceof Condition.Not not) {
            return "not " + grouped(not.condition(), scope);
        }
        if (condition instanceof Condition.Always always) {
            return "always " + bounds(always.from(), always.to(), scope) + ", " + grouped(always.holds(), scope);
        }
        if (condition instanceof Condition.Eventually soon) {
            return "once " + bounds(soon.from(), soon.to(), scope) + ", " + grouped(soon.holds(), scope);
        }
        if (condition instanceof Condition.Until until) {
            return grouped(until.holds(), scope) + " until, " + bounds(until.from(), until.to(), scope) + ", "
                    + grouped(until.then(), scope);
        }
        if (condition instanceof Condition.AllOf all) {
            return joined(all.parts(), " and ", scope);
        }
        return joined(((Condition.AnyOf) condition).parts(), " or ", scope);
    }

    private String joined(List<Condition> parts, String with, Scope scope) {
        return parts.stream().map(part -> grouped(part, scope)).collect(Collectors.joining(with));
    }

    private String grouped(Condition condition, Scope scope) {
        return single(condition) ? condition(condition, scope) : "(" + condition(condition, scope) + ")";
    }

    private static boolean single(Condition condition) {
        return condition instanceof Condition.Above
                || condition instanceof Condition.Below
                || condition instanceof Condition.WireIs
                || condition instanceof Condition.Not;
    }

    /** {@code within 3 s}, {@code from 1 s to 3 s later}. */
    private String bounds(Operand from, Operand to, Scope scope) {
        boolean atOnce =
                from instanceof Operand.Written written && written.quantity().base() == 0;
        return (atOnce ? "within " : "from " + figures.value(from, scope) + " to ") + figures.patience(to, scope);
    }

    private String looped(String variable, Scope scope) {
        Optional<Operand> value = Optional.ofNullable(scope.variables().get(variable));
        String text = value.map(FigureText::inId).orElse("<" + variable + ">");
        return switch (text) {
            case "first" -> "vehicle 1";
            case "last" -> "vehicle " + vehicles;
            default -> "vehicle " + text;
        };
    }
}
