package dev.lapwing.simulated;

import static dev.lapwing.fixture.SimulationFigure.*;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.fixture.SimulationFigure;
import dev.lapwing.fixture.Wiring;
import dev.lapwing.naming.DesignOption;
import dev.lapwing.plant.CylinderSpec;
import dev.lapwing.plant.DriverValveSpec;
import dev.lapwing.plant.ElectroPneumaticSpec;
import dev.lapwing.plant.LeakSpec;
import dev.lapwing.plant.MagnetValveSpec;
import dev.lapwing.plant.MainSupplySpec;
import dev.lapwing.plant.Orifice;
import dev.lapwing.plant.PipeSpec;
import dev.lapwing.plant.TrainSpec;
import dev.lapwing.plant.TrainWire;
import dev.lapwing.plant.TrainWiresSpec;
import dev.lapwing.plant.TripleValveSpec;
import dev.lapwing.plant.VehicleSpec;
import dev.lapwing.plant.VentSpec;
import dev.lapwing.plant.WireSpec;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/** Makes the plant's exact train of a specimen. What the simulation block has no figure for stands here. */
final class TrainFigures {
    /** 2 cells come within 1.2 % of the finest division in the time of a rear pipe's fall (own study). */
    private static final int CELLS_PER_VEHICLE = 2;
    /** Standard atmosphere, Pa. Source: ISO 2533. */
    private static final double AMBIENT_PASCALS = 101_325;
    /** A workshop at 20 °C. */
    private static final double KELVIN = 293.15;
    /** Band over which the EP limiting valve closes, Pa: 0.5 psi, assumption. */
    private static final double LIMITER_BAND_PASCALS = 3447.4;
    /** Insulation of a train wire in a vehicle, ohm: a sound wire, assumption. */
    private static final double INSULATION_OHMS = 1e7;
    /** Bond of the return wire to battery minus, ohm; assumption. */
    private static final double RETURN_BOND_OHMS = 0.05;
    /** No wire is without resistance: what stands for 0 ohm. */
    static final double LEAST_OHMS = 1e-3;
    /** From main reservoir to its pipe, m³/(s·Pa): wide enough not to throttle; assumption. */
    private static final double DELIVERY_CONDUCTANCE = 50e-8;

    private final DrawnFigures specimen;
    private final Wiring wiring;
    private final double criticalRatio;

    private TrainFigures(DrawnFigures specimen, Wiring wiring) throws BenchFailure {
        this.specimen = specimen;
        this.wiring = wiring;
        criticalRatio = specimen.of(CRITICAL_RATIO);
    }

    static TrainSpec spec(DrawnFigures specimen, Wiring wiring) throws BenchFailure {
        try {
            return new TrainFigures(specimen, wiring).train();
        } catch (IllegalArgumentException e) {
            throw new BenchFailure("the fixture's simulation block makes no train: " + e.getMessage(), e);
        }
    }

    private TrainSpec train() throws BenchFailure {
        List<VehicleSpec> vehicles = new ArrayList<>();
        for (int k = 0; k < wiring.vehicles(); k++) {
            vehicles.add(vehicle(k));
        }
        DriverValveSpec driver = new DriverValveSpec(
                orifice(FEED),
                specimen.of(FEED_BAND),
                orifice(SERVICE),
                specimen.of(SERVICE_BAND),
                orifice(EMERGENCY_PORT),
                orifice(DUMP_VENT));
        MainSupplySpec supply = new MainSupplySpec(
                0,
                specimen.of(MAIN_RESERVOIR_VOLUME),
                new Orifice(DELIVERY_CONDUCTANCE, criticalRatio),
                specimen.of(COMPRESSOR_FLOW),
                specimen.of(GOVERNOR_CUT_IN),
                specimen.of(GOVERNOR_CUT_OUT));
        return new TrainSpec(vehicles, driver, supply, wires(), CELLS_PER_VEHICLE, AMBIENT_PASCALS, KELVIN);
    }

    private TrainWiresSpec wires() throws BenchFailure {
        double link = Math.max(LEAST_OHMS, specimen.of(LINK_RESISTANCE));
        Map<TrainWire, WireSpec> wires = new EnumMap<>(TrainWire.class);
        for (TrainWire wire : TrainWire.values()) {
            wires.put(wire, new WireSpec(link, 0, INSULATION_OHMS));
        }
        return new TrainWiresSpec(wires, List.of(), RETURN_BOND_OHMS);
    }

    private VehicleSpec vehicle(int k) throws BenchFailure {
        double length = specimen.of(PIPE_LENGTH, k);
        double friction = specimen.of(PIPE_FRICTION);
        double joints = specimen.of(PIPE_JOINT_LOSS);
        return new VehicleSpec(
                new PipeSpec(length, specimen.of(PIPE_BORE, k), specimen.of(PIPE_BRANCH_VOLUME, k), friction, joints),
                new PipeSpec(length, specimen.of(MAIN_PIPE_BORE), 0, friction, joints),
                specimen.of(AUXILIARY_VOLUME, k),
                triple(k),
                new CylinderSpec(
                        specimen.of(CYLINDER_DEAD_VOLUME, k),
                        specimen.of(CYLINDER_SWEPT_VOLUME, k),
                        specimen.of(PISTON_STARTS, k),
                        specimen.of(PISTON_ENDS, k)),
                electroPneumatic(k),
                new VentSpec(orifice(ALARM_VALVE, k), orifice(CREW_VALVE, k), orifice(OPEN_HOSE)),
                new LeakSpec(
                        orifice(PIPE_LEAK, k),
                        new Orifice(0, criticalRatio),
                        orifice(AUXILIARY_LEAK, k),
                        orifice(CYLINDER_LEAK, k)));
    }

    private TripleValveSpec triple(int k) throws BenchFailure {
        return new TripleValveSpec(
                orifice(TRIPLE_APPLY, k),
                orifice(TRIPLE_RELEASE, k),
                orifice(TRIPLE_GROOVE, k),
                specimen.of(TRIPLE_APPLY_DIFFERENCE, k),
                specimen.of(TRIPLE_LAP_DIFFERENCE, k),
                specimen.of(TRIPLE_REAPPLY_DIFFERENCE, k),
                specimen.of(TRIPLE_RELEASE_DIFFERENCE, k),
                specimen.of(TRIPLE_DELIVERY_LIMIT, k));
    }

    private ElectroPneumaticSpec electroPneumatic(int k) throws BenchFailure {
        double nominal = wiring.nominalVolts();
        MagnetValveSpec valve = new MagnetValveSpec(
                specimen.of(VALVE_PICK_UP, k) * nominal,
                specimen.of(VALVE_DROP_OUT, k) * nominal,
                specimen.of(VALVE_PICK_UP_TIME, k),
                specimen.of(VALVE_DROP_OUT_TIME, k),
                specimen.of(COIL_RESISTANCE, k));
        return new ElectroPneumaticSpec(
                valve,
                valve,
                orifice(EP_APPLY, k),
                orifice(EP_RELEASE, k),
                specimen.of(EP_LIMITER, k),
                LIMITER_BAND_PASCALS,
                wiring.design().is(DesignOption.EXHAUSTS_IN_SERIES),
                specimen.of(SUPPLY_VOLUME, k),
                orifice(SUPPLY_CHECK, k));
    }

    private Orifice orifice(SimulationFigure figure) throws BenchFailure {
        return new Orifice(specimen.of(figure), criticalRatio);
    }

    private Orifice orifice(SimulationFigure figure, int vehicle) throws BenchFailure {
        return new Orifice(specimen.of(figure, vehicle), criticalRatio);
    }
}
