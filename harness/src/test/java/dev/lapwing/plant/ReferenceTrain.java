package dev.lapwing.plant;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;

/**
 * The train of the reference responses: an invented multiple unit whose figures an independent model was given too.
 * They are trade practice or assumptions, not any real vehicle's.
 */
public final class ReferenceTrain {
    public static final double PSI = 6894.757293168361;
    static final double AMBIENT = 101_325;
    static final double KELVIN = 293.15;
    /** Nominal supply of the train wires, in V. */
    public static final double UN = 110;

    public static final double BATTERY_OHMS = 0.5;
    /** 1 dm³/(s·bar) in m³/(s·Pa). */
    static final double DM3_PER_S_BAR = 1e-8;

    static final double B = 0.30;
    static final double SKEW_SECONDS = 0.002;

    private ReferenceTrain() {}

    public static Orifice orifice(double dm3PerSecondBar) {
        return new Orifice(dm3PerSecondBar * DM3_PER_S_BAR, B);
    }

    public static TrainSpec spec(int vehicles) {
        return spec(vehicles, 2);
    }

    static TrainSpec spec(int vehicles, int cellsPerVehicle) {
        List<VehicleSpec> all =
                IntStream.range(0, vehicles).mapToObj(ReferenceTrain::vehicle).toList();
        return train(all, cellsPerVehicle);
    }

    static TrainSpec train(List<VehicleSpec> vehicles, int cellsPerVehicle) {
        DriverValveSpec driver =
                new DriverValveSpec(orifice(3), 3 * PSI, orifice(3), 2 * PSI, orifice(25), orifice(12));
        // A supply that does not sag, as the reference has it: a large reservoir behind a wide delivery.
        MainSupplySpec supply = new MainSupplySpec(0, 50, orifice(1000), 0.02, 85 * PSI, 95 * PSI);
        return new TrainSpec(vehicles, driver, supply, wires(), cellsPerVehicle, AMBIENT, KELVIN);
    }

    static TrainWiresSpec wires() {
        Map<TrainWire, WireSpec> wires = new EnumMap<>(TrainWire.class);
        for (TrainWire wire : TrainWire.values()) {
            wires.put(wire, new WireSpec(0.05, 0.02, 1e7));
        }
        return new TrainWiresSpec(wires, List.of(), 0.05);
    }

    static VehicleSpec vehicle(int k) {
        double skew = SKEW_SECONDS * k;
        MagnetValveSpec valve = new MagnetValveSpec(0.6 * UN, 0.15 * UN, 0.045 + skew, 0.060 + skew, 600);
        return new VehicleSpec(
                new PipeSpec(22, 0.0254, 0.0005, 0.025, 3),
                new PipeSpec(22, 0.1, 0, 0.01, 0),
                0.038,
                new TripleValveSpec(
                        orifice(2.6),
                        orifice(2.2),
                        orifice(0.30),
                        1.5 * PSI,
                        0.3 * PSI,
                        0.8 * PSI,
                        1.5 * PSI,
                        Double.POSITIVE_INFINITY),
                new CylinderSpec(0.002, 0.010, 3 * PSI, 8 * PSI),
                new ElectroPneumaticSpec(
                        valve, valve, orifice(2.6), orifice(4.5), 50 * PSI, 0.5 * PSI, false, 0.060, orifice(2)),
                new VentSpec(orifice(6), orifice(10), orifice(60)),
                new LeakSpec(orifice(0), orifice(0), orifice(0), orifice(0)));
    }

    /** A vehicle with another EP brake. */
    static VehicleSpec with(VehicleSpec like, ElectroPneumaticSpec ep) {
        return new VehicleSpec(
                like.brakePipe(),
                like.mainPipe(),
                like.auxiliaryCubicMetres(),
                like.triple(),
                like.cylinder(),
                ep,
                like.vents(),
                like.leaks());
    }

    public static Train charged(int vehicles) {
        Train train = new Train(spec(vehicles));
        train.charge(70 * PSI, 90 * PSI);
        train.compressor(true);
        return train;
    }

    /** EP brake: fill. */
    static void apply(Train train) {
        train.energise(TrainWire.APPLICATION, 0, UN, BATTERY_OHMS);
        train.energise(TrainWire.HOLDING, 0, UN, BATTERY_OHMS);
    }

    /** EP brake: lap. */
    static void hold(Train train) {
        train.deenergise(TrainWire.APPLICATION, 0);
        train.energise(TrainWire.HOLDING, 0, UN, BATTERY_OHMS);
    }

    /** EP brake: exhaust. */
    static void release(Train train) {
        train.deenergise(TrainWire.APPLICATION, 0);
        train.deenergise(TrainWire.HOLDING, 0);
    }
}
