package dev.lapwing.simulated;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.fixture.Simulation;
import dev.lapwing.fixture.SimulationFigure;
import dev.lapwing.fixture.Wiring;
import dev.lapwing.naming.Actuator;
import dev.lapwing.naming.Signal;
import dev.lapwing.plant.Train;
import dev.lapwing.uncertainty.Streams;
import dev.lapwing.unit.ControllerUnderTest;
import dev.lapwing.unit.UnitInputs;
import dev.lapwing.unit.UnitOutputs;
import dev.lapwing.unit.UnitWire;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.Map;
import java.util.function.DoubleConsumer;
import java.util.function.DoubleSupplier;

/**
 * Train and unit under test as one specimen of what the simulation block allows. It begins as a train that stood
 * overnight in a workshop with shore air: main reservoirs full, brake pipe and auxiliary reservoirs empty.
 */
final class World {
    private final Train train;
    private final ControllerUnderTest unit;
    private final UnitInputs inputs = new UnitInputs();
    private final UnitOutputs outputs = new UnitOutputs();
    private final Connector connector;
    private final TrainEvents events;
    private final int vehicles;
    private double controlledSeconds;

    World(Wiring wiring, Simulation simulation, Streams streams) throws BenchFailure {
        vehicles = wiring.vehicles();
        DrawnFigures specimen = new DrawnFigures(simulation, vehicles, streams);
        train = new Train(TrainFigures.spec(specimen, wiring));
        unit = unit(wiring, simulation, specimen, streams);
        double nominal = wiring.nominalVolts();
        double sourceOhms = Math.max(TrainFigures.LEAST_OHMS, specimen.of(SimulationFigure.SOURCE_RESISTANCE));
        connector = new Connector(train, inputs, outputs, nominal, sourceOhms);
        events = new TrainEvents(train, specimen.of(SimulationFigure.FEED_PRESSURE), nominal, sourceOhms);
        for (Simulation.WireFault fault : simulation.wireFaults()) {
            train.fault(Connector.fault(fault, nominal).orElseThrow(() -> noSuchWire(fault)));
        }
        train.charge(0, specimen.of(SimulationFigure.GOVERNOR_CUT_OUT));
        train.compressor(true);
    }

    private static BenchFailure noSuchWire(Simulation.WireFault fault) {
        String named = fault.with().isEmpty() ? fault.wire() : fault.wire() + "' and '" + fault.with();
        return new BenchFailure("the fixture's wire fault names '" + named
                + "'; a train's wires are application, holding, traction, ep-supply-lamp and return");
    }

    private static ControllerUnderTest unit(
            Wiring wiring, Simulation simulation, DrawnFigures specimen, Streams streams) throws BenchFailure {
        Map<SimulationFigure, Double> drawn = new EnumMap<>(SimulationFigure.class);
        for (SimulationFigure figure : ControllerUnderTest.figures(simulation.controller())) {
            drawn.put(figure, specimen.of(figure));
        }
        try {
            return ControllerUnderTest.of(simulation.controller(), wiring, drawn, streams.of("unit"));
        } catch (IllegalArgumentException e) {
            throw new BenchFailure("the fixture makes no simulated unit: " + e.getMessage(), e);
        }
    }

    /** Lets the train go on by a time. */
    void step(double seconds) {
        train.step(seconds);
    }

    /** Lets the unit act on what it senses, at a time since the start. */
    void control(double nowSeconds) {
        if (nowSeconds > controlledSeconds) {
            connector.sense();
            unit.step(nowSeconds, nowSeconds - controlledSeconds, inputs, outputs);
            controlledSeconds = nowSeconds;
            connector.drive();
        }
    }

    /**
     * What an output of the bench acts on, in the actuator's base unit.
     *
     * @throws BenchFailure if nothing is there to be driven
     */
    DoubleConsumer acting(Actuator actuator) throws BenchFailure {
        if (actuator instanceof Actuator.Handle) {
            return degrees -> inputs.handleDegrees = degrees;
        }
        if (actuator instanceof Actuator.PowerHandle) {
            return notch -> inputs.powerNotch = (int) Math.round(notch);
        }
        if (actuator instanceof Actuator.Speed) {
            return speed -> inputs.speedMetresPerSecond = speed;
        }
        if (actuator instanceof Actuator.Supply supply) {
            return supply(supply);
        }
        return switched((Actuator.Switch) actuator);
    }

    private DoubleConsumer supply(Actuator.Supply supply) throws BenchFailure {
        return switch (supply.name()) {
            case "ep" ->
                volts -> {
                    inputs.epSupplyVolts = volts;
                    connector.drive();
                };
            case "control" ->
                volts -> {
                    inputs.controlSupplyVolts = volts;
                    connector.drive();
                };
            default ->
                throw new BenchFailure(
                        "the simulated unit has the supplies 'ep' and 'control', not '" + supply.name() + "'");
        };
    }

    private DoubleConsumer switched(Actuator.Switch actuator) throws BenchFailure {
        if (TrainEvents.onTheTrain(actuator.kind())) {
            TrainEvents.Event event = events.of(actuator);
            return state -> event.happens(state != 0);
        }
        return switch (actuator.kind()) {
            case DEADMAN -> state -> inputs.deadmanHeld = state != 0;
            case ACKNOWLEDGEMENT -> state -> inputs.acknowledgementPressed = state != 0;
            case MASTER_SWITCH -> state -> inputs.masterOn = state != 0;
            case REVERSER -> reverser(actuator);
            default -> throw new IllegalArgumentException(actuator.key());
        };
    }

    private DoubleConsumer reverser(Actuator.Switch actuator) throws BenchFailure {
        return switch (actuator.of()) {
            case "forward" -> state -> inputs.reverserForward = state != 0;
            case "reverse" -> state -> inputs.reverserReverse = state != 0;
            default -> throw new BenchFailure("a reverser has 'forward' and 'reverse', not '" + actuator.of() + "'");
        };
    }

    /**
     * The truth of a signal, in its base unit; 0 or 1 for a wire. A pressure of a vehicle that the train does not have
     * is that of open air.
     *
     * @throws BenchFailure if there is no such signal
     */
    DoubleSupplier sensing(Signal signal) throws BenchFailure {
        if (signal instanceof Signal.Pressure pressure) {
            return pressure.vehicle() > vehicles ? () -> 0 : pressure(pressure);
        }
        if (signal instanceof Signal.Twin twin) {
            return sensing(twin.of());
        }
        if (signal instanceof Signal.HandleAngle) {
            return () -> inputs.handleDegrees;
        }
        if (signal instanceof Signal.SupplyVoltage supply) {
            return switch (supply.name()) {
                case "ep" -> () -> inputs.epSupplyVolts;
                case "control" -> () -> inputs.controlSupplyVolts;
                default -> throw unknown(signal);
            };
        }
        UnitWire wire = UnitWire.named(((Signal.Wire) signal).name()).orElseThrow(() -> unknown(signal));
        return () -> connector.on(wire) ? 1 : 0;
    }

    private static BenchFailure unknown(Signal signal) {
        return new BenchFailure("the simulated unit has no '" + signal.key() + "' to read");
    }

    private DoubleSupplier pressure(Signal.Pressure pressure) {
        int k = pressure.vehicle() - 1;
        return switch (pressure.kind()) {
            case BRAKE_PIPE -> () -> train.brakePipePascals(k);
            case BRAKE_CYLINDER -> () -> train.cylinderPascals(k);
            case AUXILIARY_RESERVOIR -> () -> train.auxiliaryPascals(k);
            case MAIN_RESERVOIR_PIPE -> () -> train.mainPipePascals(k);
            case SUPPLY_RESERVOIR -> () -> train.supplyPascals(k);
        };
    }

    /** Reads any signal by name; slower than {@link #sensing}, and unknown ones are an error of the caller. */
    Truth truth() {
        Map<Signal, DoubleSupplier> known = new HashMap<>();
        return signal -> known.computeIfAbsent(signal, this::sensingOrThrow).getAsDouble();
    }

    private DoubleSupplier sensingOrThrow(Signal signal) {
        try {
            return sensing(signal);
        } catch (BenchFailure e) {
            throw new IllegalArgumentException(e.getMessage(), e);
        }
    }
}
