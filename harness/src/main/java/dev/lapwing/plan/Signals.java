package dev.lapwing.plan;

import dev.lapwing.fixture.Wiring;
import dev.lapwing.naming.PressureKind;
import dev.lapwing.naming.Signal;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.Quantity;
import dev.lapwing.sequence.Operand;
import dev.lapwing.sequence.SignalRef;
import dev.lapwing.sequence.VehicleRef;
import dev.lapwing.source.Mistakes;
import dev.lapwing.source.NearestName;
import dev.lapwing.source.Place;
import java.util.Optional;

/** Turns references to vehicles and signals into vehicles of the train and signals that the bench carries. */
final class Signals {

    private final Wiring wiring;
    private final Connections connections;
    private final Mistakes mistakes;

    Signals(Wiring wiring, Connections connections, Mistakes mistakes) {
        this.wiring = wiring;
        this.connections = connections;
        this.mistakes = mistakes;
    }

    /** The signal; after a mistake one at vehicle 1 stands in for it. */
    Signal signal(SignalRef ref, Scope scope) {
        if (ref instanceof SignalRef.Wire wire) {
            return wire(wire);
        }
        Signal signal;
        if (ref instanceof SignalRef.Pressure pressure) {
            Optional<Integer> vehicle = vehicle(pressure.vehicle(), scope, ref.place());
            if (vehicle.isEmpty()) {
                return new Signal.Pressure(pressure.kind(), 1);
            }
            signal = new Signal.Pressure(pressure.kind(), vehicle.get());
        } else if (ref instanceof SignalRef.SupplyVoltage supply) {
            signal = new Signal.SupplyVoltage(supply.name());
        } else {
            signal = new Signal.HandleAngle();
        }
        connections.carried(signal, ref.place());
        return signal;
    }

    Signal.Wire wire(SignalRef.Wire ref) {
        Signal.Wire wire = new Signal.Wire(ref.name());
        if (wiring.wires().contains(ref.name())) {
            connections.carried(wire, ref.place());
        } else {
            String near = NearestName.hint(ref.name(), wiring.wires());
            mistakes.add(
                    ref.place(),
                    "the unit has no wire '" + ref.name() + "'",
                    "",
                    near.isEmpty() ? "its wires are " + String.join(", ", wiring.wires()) : near);
        }
        return wire;
    }

    /** A signal that has a level, which a wire has not; after that mistake a pressure stands in for it. */
    Signal level(SignalRef ref, Scope scope) {
        Signal signal = signal(ref, scope);
        if (signal.digital()) {
            mistakes.add(
                    ref.place(),
                    "wire '" + ((SignalRef.Wire) ref).name() + "' is on or off and has no level",
                    "a pressure, a supply or the handle angle",
                    "for a wire write switches, pulses-at-most, or a condition 'on' or 'off'");
            return new Signal.Pressure(PressureKind.BRAKE_PIPE, 1);
        }
        return signal;
    }

    /** The vehicle's number, or empty after a mistake. */
    Optional<Integer> vehicle(VehicleRef ref, Scope scope, Place place) {
        if (ref instanceof VehicleRef.First) {
            return Optional.of(1);
        }
        if (ref instanceof VehicleRef.Last) {
            return Optional.of(wiring.vehicles());
        }
        if (ref instanceof VehicleRef.Numbered numbered) {
            return inTrain(numbered.number(), place);
        }
        if (ref instanceof VehicleRef.Looped looped) {
            return looped(looped.variable(), scope, place);
        }
        if (scope.every().isEmpty()) {
            mistakes.add(place, "'every' vehicle stands where one is due", "a number, first or last", "");
            return Optional.empty();
        }
        return Optional.of(scope.every().getAsInt());
    }

    private Optional<Integer> looped(String variable, Scope scope, Place place) {
        Optional<Operand> value = Optional.ofNullable(scope.variables().get(variable));
        if (value.isEmpty()) {
            mistakes.add(
                    place,
                    "<" + variable + "> is the variable of no loop around this step",
                    "",
                    NearestName.hint(variable, scope.variables().keySet()));
            return Optional.empty();
        }
        if (value.get() instanceof Operand.Named named && named.figure().equals("first")) {
            return Optional.of(1);
        }
        if (value.get() instanceof Operand.Named named && named.figure().equals("last")) {
            return Optional.of(wiring.vehicles());
        }
        if (value.get() instanceof Operand.Written written
                && written.quantity().dimension() == Dimension.COUNT
                && whole(written.quantity())) {
            return inTrain((int) written.quantity().base(), written.place());
        }
        mistakes.add(
                value.get().place(),
                "<" + variable + "> is used as a vehicle at " + place,
                "the number of a vehicle, first or last",
                "");
        return Optional.empty();
    }

    private static boolean whole(Quantity quantity) {
        return quantity.base() == Math.rint(quantity.base()) && Math.abs(quantity.base()) < 1000;
    }

    private Optional<Integer> inTrain(int number, Place place) {
        if (number < 1 || number > wiring.vehicles()) {
            mistakes.add(
                    place,
                    "the train has no vehicle " + number,
                    "a vehicle from 1 to " + wiring.vehicles(),
                    "write last for the rearmost, so that the sequence serves any train");
            return Optional.empty();
        }
        return Optional.of(number);
    }
}
