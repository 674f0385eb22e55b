package dev.lapwing.plant;

import java.util.Arrays;
import java.util.List;

/**
 * A train pipe as cells that hold air, joined by links in which it moves with inertia and friction. Isothermal. The
 * speed of sound comes out as √(RT), since a link's inertia and a cell's capacity are those of the same length of
 * pipe.
 */
final class PipeLine {
    /** Air in each cell, in kg. Taps add and take here; {@link #settle} turns it into pressure. */
    final double[] mass;
    /** Absolute pressure of each cell at the last {@link #settle}, in Pa. */
    final double[] pascals;
    /** Pressure change of a cell per mass, in Pa/kg. */
    final double[] slope;

    private final int vehicles;
    private final int cellsPerVehicle;
    /** Flow in kg/s from each cell to the next; the last one is the closed end of the train and stays zero. */
    private final double[] flow;

    private final double[] inverseInertance;
    private final double[] drag;
    /** 1 where a link is open and 0 where a cock or a parted hose has closed it. */
    private final double[] open;

    PipeLine(List<PipeSpec> specs, int cellsPerVehicle, double gasPascalsPerDensity) {
        this.vehicles = specs.size();
        this.cellsPerVehicle = cellsPerVehicle;
        int cells = vehicles * cellsPerVehicle;
        mass = new double[cells];
        pascals = new double[cells];
        slope = new double[cells];
        flow = new double[cells];
        inverseInertance = new double[cells];
        drag = new double[cells];
        open = new double[cells];
        for (int cell = 0; cell < cells; cell++) {
            PipeSpec spec = specs.get(cell / cellsPerVehicle);
            slope[cell] = gasPascalsPerDensity * cellsPerVehicle / spec.volumeCubicMetres();
            if (cell + 1 < cells) {
                PipeSpec next = specs.get((cell + 1) / cellsPerVehicle);
                double joint = rearEnd(cell / cellsPerVehicle) == cell ? resistance(spec, 0, spec.jointLoss()) : 0;
                link(cell, spec, next, joint, gasPascalsPerDensity);
            }
        }
    }

    // Darcy-Weisbach: Δp = (f·L/D + K)·m² / (2·ρ·A²); momentum: (L/A)·dm/dt = p1 − p2 − Δp. A link reaches from the
    // middle
    // of one cell to the middle of the next, so it takes half a cell of each.
    private void link(int cell, PipeSpec spec, PipeSpec next, double joint, double gasPascalsPerDensity) {
        double half = spec.lengthMetres() / cellsPerVehicle / 2;
        double nextHalf = next.lengthMetres() / cellsPerVehicle / 2;
        double inertance = half / spec.areaSquareMetres() + nextHalf / next.areaSquareMetres();
        double resistance = resistance(spec, half, 0) + resistance(next, nextHalf, 0) + joint;
        inverseInertance[cell] = 1 / inertance;
        // The density is that of the mean of both pressures: 1/ρ = 2·RT/(p1 + p2).
        drag[cell] = 2 * gasPascalsPerDensity * resistance / inertance;
        open[cell] = 1;
    }

    private static double resistance(PipeSpec spec, double length, double jointLoss) {
        double area = spec.areaSquareMetres();
        return (spec.darcyFriction() * length / spec.boreMetres() + jointLoss) / (2 * area * area);
    }

    int frontEnd(int vehicle) {
        return vehicle * cellsPerVehicle;
    }

    int rearEnd(int vehicle) {
        return vehicle * cellsPerVehicle + cellsPerVehicle - 1;
    }

    /** Where a vehicle's branch stands: behind the middle of its pipe. */
    int branch(int vehicle) {
        return vehicle * cellsPerVehicle + cellsPerVehicle / 2;
    }

    /** Where a cab's valve stands: at the very end of the train, or at its vehicle's branch within it. */
    int cabEnd(int vehicle) {
        if (vehicle == 0) {
            return frontEnd(0);
        }
        return vehicle == vehicles - 1 ? rearEnd(vehicle) : branch(vehicle);
    }

    /** Opens or closes the link across the coupling behind a vehicle. */
    void join(int behind, boolean joined) {
        int link = rearEnd(behind);
        open[link] = joined ? 1 : 0;
        flow[link] = 0;
    }

    /** Fills every cell to an absolute pressure, at rest. */
    void fill(double absolutePascals) {
        for (int cell = 0; cell < mass.length; cell++) {
            mass[cell] = absolutePascals / slope[cell];
        }
        Arrays.fill(flow, 0);
        settle();
    }

    // Momentum with the pressures of the step's beginning and friction taken implicitly, then mass with the new flows
    // (semi-implicit Euler): stable while sound passes less than a cell in a step.
    void move(double seconds) {
        int links = flow.length - 1;
        for (int link = 0; link < links; link++) {
            double sum = pascals[link] + pascals[link + 1];
            double pushed = flow[link] + seconds * inverseInertance[link] * (pascals[link] - pascals[link + 1]);
            flow[link] = open[link] * pushed * sum / (sum + seconds * drag[link] * Math.abs(flow[link]));
        }
        double in = 0;
        for (int cell = 0; cell < mass.length; cell++) {
            double out = seconds * flow[cell];
            mass[cell] += in - out;
            in = out;
        }
    }

    void settle() {
        for (int cell = 0; cell < mass.length; cell++) {
            pascals[cell] = mass[cell] * slope[cell];
        }
    }

    double stored() {
        double sum = 0;
        for (double kilograms : mass) {
            sum += kilograms;
        }
        return sum;
    }
}
