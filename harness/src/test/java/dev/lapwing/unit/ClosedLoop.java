package dev.lapwing.unit;

import dev.lapwing.plant.CabValve;
import dev.lapwing.plant.ReferenceTrain;
import dev.lapwing.plant.Train;
import dev.lapwing.plant.TrainWire;
import java.util.function.BooleanSupplier;

/** A controller that drives the reference train from its first vehicle. */
final class ClosedLoop {
    final UnitInputs in;
    final UnitOutputs out;
    final Train train;
    private final HandWound wound;
    private CabValve driven = CabValve.LAP;
    private final double[] applied = new double[TrainWire.values().length];
    private boolean applicationBefore;
    private int applicationPulses;
    private double applicationAloneSeconds;

    ClosedLoop(ControllerUnderTest unit, int vehicles) {
        wound = new HandWound(unit, this::sense, this::drive);
        in = wound.in;
        out = wound.out;
        train = ReferenceTrain.charged(vehicles);
        in.controlSupplyVolts = ReferenceTrain.UN;
        in.epSupplyVolts = ReferenceTrain.UN;
    }

    /** Cab open in the right order, standing. */
    ClosedLoop ready() {
        run(4);
        in.masterOn = true;
        run(1);
        in.deadmanHeld = true;
        run(0.1);
        in.reverserForward = true;
        return run(0.1);
    }

    ClosedLoop run(double seconds) {
        wound.run(seconds);
        return this;
    }

    /** Seconds until the condition holds after a step; NaN where it does not within the limit. */
    double until(double limitSeconds, BooleanSupplier condition) {
        return wound.until(limitSeconds, condition);
    }

    private void sense() {
        in.brakePipePascals = train.cabPipePascals(0);
        in.cylinderPascals = train.cylinderPascals(0);
        in.mainReservoirPascals = train.mainPipePascals(0);
    }

    private void drive() {
        if (out.valve() != driven) {
            driven = out.valve();
            train.drive(0, driven);
        }
        energise(TrainWire.APPLICATION, UnitWire.APPLICATION);
        energise(TrainWire.HOLDING, UnitWire.HOLDING);
        train.step(HandWound.STEP_SECONDS);
        count();
    }

    private void energise(TrainWire wire, UnitWire contact) {
        double volts = out.isOn(contact) ? in.epSupplyVolts : 0;
        if (volts != applied[wire.ordinal()]) {
            applied[wire.ordinal()] = volts;
            if (volts > 0) {
                train.energise(wire, 0, volts, ReferenceTrain.BATTERY_OHMS);
            } else {
                train.deenergise(wire, 0);
            }
        }
    }

    private void count() {
        boolean application = out.isOn(UnitWire.APPLICATION);
        if (application && !applicationBefore) {
            applicationPulses++;
        }
        if (application && !out.isOn(UnitWire.HOLDING)) {
            applicationAloneSeconds += HandWound.STEP_SECONDS;
        }
        applicationBefore = application;
    }

    /** Times that the application contact has closed since the beginning. */
    int applicationPulses() {
        return applicationPulses;
    }

    /** Seconds during which application was closed without holding. */
    double applicationAloneSeconds() {
        return applicationAloneSeconds;
    }

    double cylinderPsi(int vehicle) {
        return train.cylinderPascals(vehicle) / ReferenceTrain.PSI;
    }

    double pipePsi(int vehicle) {
        return train.brakePipePascals(vehicle) / ReferenceTrain.PSI;
    }
}
