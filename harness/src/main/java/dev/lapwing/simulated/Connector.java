package dev.lapwing.simulated;

import dev.lapwing.fixture.Simulation;
import dev.lapwing.plant.CabValve;
import dev.lapwing.plant.Train;
import dev.lapwing.plant.TrainWire;
import dev.lapwing.plant.WireFault;
import dev.lapwing.unit.UnitInputs;
import dev.lapwing.unit.UnitOutputs;
import dev.lapwing.unit.UnitWire;
import java.util.Optional;

/** The unit's connector: what the unit drives goes to the train in vehicle 1, what it senses comes from there. */
final class Connector {
    /** Resistance of a short or a touch, ohm: next to nothing beside a source's; assumption. */
    private static final double SHORT_OHMS = 0.05;
    /** A wire reads as on from this share of the nominal voltage; assumption, usual for inputs of that kind. */
    private static final double ON_SHARE = 0.5;

    private static final int CAB = 0;

    private final Train train;
    private final UnitInputs inputs;
    private final UnitOutputs outputs;
    private final double sourceOhms;
    private final double onVolts;
    private final double[] fedVolts = new double[TrainWire.values().length];
    private CabValve valve = CabValve.LAP;

    Connector(Train train, UnitInputs inputs, UnitOutputs outputs, double nominalVolts, double sourceOhms) {
        this.train = train;
        this.inputs = inputs;
        this.outputs = outputs;
        this.sourceOhms = sourceOhms;
        onVolts = ON_SHARE * nominalVolts;
    }

    /** The train wire of that name, as wirings and faults have it. */
    static Optional<TrainWire> trainWire(String name) {
        return switch (name) {
            case "application" -> Optional.of(TrainWire.APPLICATION);
            case "holding" -> Optional.of(TrainWire.HOLDING);
            case "traction" -> Optional.of(TrainWire.TRACTION);
            case "ep-supply-lamp" -> Optional.of(TrainWire.LAMP);
            case "return" -> Optional.of(TrainWire.RETURN);
            default -> Optional.empty();
        };
    }

    /** A fault of the simulation block as the plant has it; empty if it names a wire that no train has. */
    static Optional<WireFault> fault(Simulation.WireFault fault, double nominalVolts) {
        int at = fault.behind() - 1;
        return trainWire(fault.wire()).flatMap(wire -> switch (fault.kind()) {
            case OPEN -> Optional.of(new WireFault.Open(wire, at));
            case SHORT_TO_PLUS -> Optional.of(new WireFault.ShortedToPlus(wire, at, nominalVolts, SHORT_OHMS));
            case SHORT_TO_MINUS -> Optional.of(new WireFault.ShortedToMinus(wire, at, SHORT_OHMS));
            case CROSSED -> trainWire(fault.with()).map(other -> new WireFault.Crossed(wire, other, at));
            case RESISTANCE -> Optional.of(new WireFault.Resistive(wire, at, fault.ohms()));
        });
    }

    /** Lets the unit feel the train as it is now. */
    void sense() {
        inputs.brakePipePascals = train.cabPipePascals(CAB);
        inputs.cylinderPascals = train.cylinderPascals(CAB);
        inputs.mainReservoirPascals = train.mainPipePascals(CAB);
    }

    /** Lets the train feel what the unit drives now; also due whenever a supply changes. */
    void drive() {
        feed(TrainWire.APPLICATION, UnitWire.APPLICATION, inputs.epSupplyVolts);
        feed(TrainWire.HOLDING, UnitWire.HOLDING, inputs.epSupplyVolts);
        feed(TrainWire.LAMP, UnitWire.EP_SUPPLY_LAMP, inputs.epSupplyVolts);
        feed(TrainWire.TRACTION, UnitWire.TRACTION, inputs.controlSupplyVolts);
        if (outputs.valve() != valve) {
            valve = outputs.valve();
            train.drive(CAB, valve);
        }
    }

    // A supply that is off is an open switch, not a voltage of zero, which would pull the wire down.
    private void feed(TrainWire wire, UnitWire contact, double supplyVolts) {
        double volts = outputs.isOn(contact) ? supplyVolts : 0;
        if (volts != fedVolts[wire.ordinal()]) {
            fedVolts[wire.ordinal()] = volts;
            if (volts == 0) {
                train.deenergise(wire, CAB);
            } else {
                train.energise(wire, CAB, volts, sourceOhms);
            }
        }
    }

    /** Whether a wire reads as on at the connector: the EP train wires by their voltage, others by their contact. */
    boolean on(UnitWire wire) {
        return switch (wire) {
            case APPLICATION -> Math.abs(train.volts(TrainWire.APPLICATION, CAB)) >= onVolts;
            case HOLDING -> Math.abs(train.volts(TrainWire.HOLDING, CAB)) >= onVolts;
            default -> outputs.isOn(wire);
        };
    }
}
