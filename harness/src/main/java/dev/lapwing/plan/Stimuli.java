package dev.lapwing.plan;

import dev.lapwing.fixture.Wiring;
import dev.lapwing.naming.Actuator;
import dev.lapwing.naming.SwitchKind;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.sequence.Operand;
import dev.lapwing.sequence.Step;
import dev.lapwing.sequence.Stimulus;
import dev.lapwing.sequence.VehicleRef;
import dev.lapwing.source.NearestName;
import dev.lapwing.source.Place;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Resolves stimuli into actuators and their values. */
final class Stimuli {

    private final Lookup lookup;
    private final Wiring wiring;
    private final StimulusText text;
    private final HandlePlace handle;

    Stimuli(Lookup lookup, StimulusText text, HandlePlace handle) {
        this.lookup = lookup;
        this.wiring = lookup.subject().wiring();
        this.text = text;
        this.handle = handle;
    }

    PlanStep.Drive drive(Step.Stimulate step, Scope scope) {
        Map<Actuator, Double> values = new LinkedHashMap<>();
        long overUs = 0;
        for (Stimulus stimulus : step.stimuli()) {
            values(stimulus, scope).forEach((actuator, value) -> {
                lookup.connections().driven(actuator, value, stimulus.place());
                if (values.put(actuator, value) != null) {
                    mistake(stimulus.place(), "'" + actuator.key() + "' is driven twice at the same instant", "", "");
                }
            });
            Optional<Operand> over = over(stimulus);
            if (over.isPresent()) {
                overUs = micros(lookup.figures().stretch(over.get(), scope));
                rampAlone(step, over.get());
                lookup.connections().ramped(new Actuator.Handle(), over.get().place());
            }
        }
        String said = text.all(step.stimuli(), scope);
        Double degrees = values.get(new Actuator.Handle());
        if (degrees != null) {
            handle.moved(degrees, said);
        }
        return new PlanStep.Drive(values, overUs, said, step.place().toString());
    }

    static long micros(double seconds) {
        return Math.round(seconds * 1e6);
    }

    private static Optional<Operand> over(Stimulus stimulus) {
        if (stimulus instanceof Stimulus.MoveHandle move) {
            return move.over();
        }
        return stimulus instanceof Stimulus.MoveHandleAlong move ? move.over() : Optional.empty();
    }

    /** All that is driven together takes the same time, and only the handle can take any. */
    private void rampAlone(Step.Stimulate step, Operand over) {
        if (step.stimuli().size() > 1) {
            mistake(
                    over.place(),
                    "a handle moved over a time stands together with what happens at once",
                    "a step of its own for the handle",
                    "put the others into a step before it; steps follow each other without delay");
        }
    }

    private Map<Actuator, Double> values(Stimulus stimulus, Scope scope) {
        return handle(stimulus, scope)
                .or(() -> cab(stimulus, scope))
                .or(() -> train(stimulus, scope))
                .orElseThrow();
    }

    private Optional<Map<Actuator, Double>> handle(Stimulus stimulus, Scope scope) {
        if (stimulus instanceof Stimulus.MoveHandle move) {
            Double degrees = wiring.handle().positions().get(move.position());
            if (degrees == null) {
                unknown(
                        move.place(),
                        "the handle has no position '" + move.position() + "'",
                        move.position(),
                        wiring.handle().positions().keySet());
            }
            return Optional.of(Map.of(new Actuator.Handle(), degrees == null ? Double.NaN : degrees));
        }
        if (stimulus instanceof Stimulus.MoveHandleAlong move) {
            double share = lookup.figures().value(move.share(), scope, Dimension.RATIO);
            if (share < 0 || share > 1) {
                mistake(
                        move.share().place(),
                        "the handle is moved to " + lookup.text().quantity(share, Dimension.RATIO) + " of an arc",
                        "a share from 0 % to 100 %",
                        "");
            }
            Optional<Double> degrees = wiring.handle().angle(move.arc(), share);
            if (degrees.isEmpty()) {
                unknown(
                        move.place(),
                        "the handle has no arc '" + move.arc() + "'",
                        move.arc(),
                        wiring.handle().arcs().keySet());
            }
            return Optional.of(Map.of(new Actuator.Handle(), degrees.orElse(Double.NaN)));
        }
        return Optional.empty();
    }

    private Optional<Map<Actuator, Double>> cab(Stimulus stimulus, Scope scope) {
        if (stimulus instanceof Stimulus.Deadman deadman) {
            return to(SwitchKind.DEADMAN, "", deadman.held());
        }
        if (stimulus instanceof Stimulus.Acknowledgement acknowledgement) {
            return to(SwitchKind.ACKNOWLEDGEMENT, "", acknowledgement.pressed());
        }
        if (stimulus instanceof Stimulus.MasterSwitch master) {
            return to(SwitchKind.MASTER_SWITCH, "", master.on());
        }
        if (stimulus instanceof Stimulus.Reverser reverser) {
            Map<Actuator, Double> both = new LinkedHashMap<>();
            both.put(reverser("forward"), one(reverser.direction() == Stimulus.Direction.FORWARD));
            both.put(reverser("reverse"), one(reverser.direction() == Stimulus.Direction.REVERSE));
            return Optional.of(both);
        }
        if (stimulus instanceof Stimulus.PowerHandle power) {
            if (power.notch() < 0 || power.notch() > wiring.powerNotches()) {
                mistake(
                        power.place(),
                        "the power handle has no notch " + power.notch(),
                        wiring.powerNotches() == 0
                                ? "no power handle: the unit has none"
                                : "off or a notch from 1 to " + wiring.powerNotches(),
                        "");
            }
            return Optional.of(Map.of(new Actuator.PowerHandle(), (double) power.notch()));
        }
        if (stimulus instanceof Stimulus.Speed speed) {
            double value = lookup.figures().value(speed.speed(), scope, Dimension.SPEED);
            return Optional.of(Map.of(new Actuator.Speed(), value));
        }
        if (stimulus instanceof Stimulus.Supply supply) {
            double volts = lookup.figures().value(supply.level(), scope, Dimension.VOLTAGE);
            return Optional.of(Map.of(new Actuator.Supply(supply.name()), volts));
        }
        return Optional.empty();
    }

    private Optional<Map<Actuator, Double>> train(Stimulus stimulus, Scope scope) {
        if (stimulus instanceof Stimulus.WireFeed feed) {
            return to(SwitchKind.WIRE_FEED, feed.wire(), feed.on());
        }
        if (stimulus instanceof Stimulus.AlarmValve valve) {
            return to(SwitchKind.ALARM_VALVE, "vehicle-", valve.vehicle(), valve.open(), scope, valve.place());
        }
        if (stimulus instanceof Stimulus.CrewValve valve) {
            return to(SwitchKind.CREW_VALVE, "vehicle-", valve.vehicle(), valve.open(), scope, valve.place());
        }
        if (stimulus instanceof Stimulus.HoseBurst hose) {
            String of = hose.pipe().text() + "-behind-";
            return behind(SwitchKind.HOSE_BURST, of, hose.behind(), hose.burst(), scope, hose.place());
        }
        if (stimulus instanceof Stimulus.Parting parting) {
            return behind(SwitchKind.PARTING, "behind-", parting.behind(), parting.parted(), scope, parting.place());
        }
        if (stimulus instanceof Stimulus.Cock cock) {
            String of = cock.pipe().text() + "-behind-";
            return behind(SwitchKind.COCK, of, cock.behind(), cock.shut(), scope, cock.place());
        }
        if (stimulus instanceof Stimulus.OtherCabCharge charge) {
            return to(SwitchKind.OTHER_CAB_CHARGE, "far", charge.charging());
        }
        return Optional.empty();
    }

    private Optional<Map<Actuator, Double>> behind(
            SwitchKind kind, String of, VehicleRef ref, boolean on, Scope scope, Place place) {
        Optional<Integer> vehicle = lookup.signals().vehicle(ref, scope, place);
        if (vehicle.isPresent() && vehicle.get() == wiring.vehicles()) {
            mistake(
                    place,
                    "behind vehicle " + vehicle.get() + " there is no coupling",
                    "a vehicle from 1 to " + (wiring.vehicles() - 1),
                    "");
            return Optional.of(Map.of());
        }
        return to(kind, of, ref, on, scope, place);
    }

    private Optional<Map<Actuator, Double>> to(
            SwitchKind kind, String of, VehicleRef ref, boolean on, Scope scope, Place place) {
        Optional<Integer> vehicle = lookup.signals().vehicle(ref, scope, place);
        return vehicle.isEmpty() ? Optional.of(Map.of()) : to(kind, of + vehicle.get(), on);
    }

    private static Optional<Map<Actuator, Double>> to(SwitchKind kind, String of, boolean on) {
        return Optional.of(Map.of(new Actuator.Switch(kind, of), one(on)));
    }

    private static Actuator reverser(String direction) {
        return new Actuator.Switch(SwitchKind.REVERSER, direction);
    }

    private static double one(boolean on) {
        return on ? 1 : 0;
    }

    private void unknown(Place place, String what, String written, Collection<String> known) {
        String near = NearestName.hint(written, known);
        mistake(
                place,
                what,
                near.isEmpty()
                        ? "one of "
                                + String.join(
                                        ", ",
                                        List.copyOf(known).stream().sorted().toList())
                        : "",
                near);
    }

    private void mistake(Place place, String found, String expected, String hint) {
        lookup.mistake(place, found, expected, hint);
    }
}
