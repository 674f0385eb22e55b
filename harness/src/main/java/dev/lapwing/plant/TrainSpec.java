package dev.lapwing.plant;

import java.util.List;

/**
 * A train, every figure exact and in SI units.
 *
 * @param vehicles        from the head to the rear, at least one
 * @param driverValve     the driver's brake valve of every cab
 * @param mainSupply      main reservoir and compressor
 * @param wires           train wires
 * @param cellsPerVehicle cells of the brake pipe per vehicle, 1 to 16; 2 is usual
 * @param ambientPascals  absolute ambient pressure, in Pa
 * @param kelvin          temperature of surroundings and air, in K
 */
public record TrainSpec(
        List<VehicleSpec> vehicles,
        DriverValveSpec driverValve,
        MainSupplySpec mainSupply,
        TrainWiresSpec wires,
        int cellsPerVehicle,
        double ambientPascals,
        double kelvin) {
    private static final int CELLS_MAX = 16;

    public TrainSpec {
        vehicles = List.copyOf(vehicles);
        if (vehicles.isEmpty()) {
            throw new IllegalArgumentException("a train has at least one vehicle");
        }
        Require.positive("ambient pressure", ambientPascals, "Pa");
        Require.positive("ambient temperature", kelvin, "K");
        Require.index("vehicle of the main reservoir", mainSupply.vehicle(), vehicles.size());
        for (WireLoad load : wires.loads()) {
            Require.index("vehicle of a wire load", load.vehicle(), vehicles.size());
        }
        if (cellsPerVehicle < 1 || cellsPerVehicle > CELLS_MAX) {
            throw new IllegalArgumentException(
                    "cells per vehicle must lie in 1.." + CELLS_MAX + ", got " + cellsPerVehicle);
        }
    }
}
