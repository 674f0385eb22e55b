package dev.lapwing.plant;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * The train wires as a resistive ladder: one node for each wire in each vehicle, links across the couplings, coils and
 * other loads to the return. Solved only when something has changed and somebody asks.
 */
final class WireLadder {
    private static final TrainWire[] WIRES = TrainWire.values();
    private static final int COUNT = WIRES.length;
    private static final int RETURN = TrainWire.RETURN.ordinal();

    private final int vehicles;
    private final List<VehicleSpec> specs;
    private final TrainWiresSpec wires;
    private final double[] sourceVolts;
    /** Zero where a cab has no source on the wire. */
    private final double[] sourceSiemens;

    private final boolean[] parted;
    private final List<WireFault> faults = new ArrayList<>();
    private final BandedSystem system;
    private final int[] across = new int[COUNT];
    private final double[] seriesOhms = new double[COUNT];
    private boolean changed = true;

    WireLadder(TrainSpec train) {
        specs = train.vehicles();
        vehicles = specs.size();
        wires = train.wires();
        sourceVolts = new double[vehicles * COUNT];
        sourceSiemens = new double[vehicles * COUNT];
        parted = new boolean[vehicles];
        // Crossed wires join the first wire of a vehicle to the last of the next: the farthest that two nodes can be.
        system = new BandedSystem(vehicles * COUNT, 2 * COUNT - 1);
        energise(TrainWire.RETURN, 0, 0, wires.returnBondOhms());
    }

    private static int node(int vehicle, int wire) {
        return vehicle * COUNT + wire;
    }

    void energise(TrainWire wire, int cab, double volts, double ohms) {
        int at = node(cab, wire.ordinal());
        double siemens = 1 / ohms;
        changed |= sourceVolts[at] != volts || sourceSiemens[at] != siemens;
        sourceVolts[at] = volts;
        sourceSiemens[at] = siemens;
    }

    void deenergise(TrainWire wire, int cab) {
        int at = node(cab, wire.ordinal());
        changed |= sourceSiemens[at] != 0;
        sourceVolts[at] = 0;
        sourceSiemens[at] = 0;
    }

    void part(int behind, boolean open) {
        changed |= parted[behind] != open;
        parted[behind] = open;
    }

    void fault(WireFault fault) {
        requireInTrain(fault);
        faults.add(fault);
        changed = true;
    }

    void mend(WireFault fault) {
        changed |= faults.remove(fault);
    }

    void mendAll() {
        changed |= !faults.isEmpty();
        faults.clear();
    }

    private void requireInTrain(WireFault fault) {
        if (fault instanceof WireFault.Open f) {
            Require.index("coupling", f.behind(), vehicles - 1);
        } else if (fault instanceof WireFault.Resistive f) {
            Require.index("coupling", f.behind(), vehicles - 1);
        } else if (fault instanceof WireFault.Crossed f) {
            Require.index("coupling", f.behind(), vehicles - 1);
        } else if (fault instanceof WireFault.ShortedToPlus f) {
            Require.index("vehicle", f.vehicle(), vehicles);
        } else if (fault instanceof WireFault.ShortedToMinus f) {
            Require.index("vehicle", f.vehicle(), vehicles);
        } else if (fault instanceof WireFault.Bridged f) {
            Require.index("vehicle", f.vehicle(), vehicles);
        }
    }

    /** Works the voltages out anew where something has changed since; says whether it did. */
    boolean settle() {
        if (!changed) {
            return false;
        }
        changed = false;
        system.clear();
        for (int k = 0; k < vehicles; k++) {
            vehicle(k);
            if (k + 1 < vehicles && !parted[k]) {
                coupling(k);
            }
        }
        for (int i = 0; i < faults.size(); i++) {
            inVehicle(faults.get(i));
        }
        system.solve();
        return true;
    }

    private void vehicle(int k) {
        for (int wire = 0; wire < COUNT; wire++) {
            int at = node(k, wire);
            system.toReference(at, 1 / wires.wires().get(WIRES[wire]).insulationOhms(), 0);
            if (sourceSiemens[at] > 0) {
                system.toReference(at, sourceSiemens[at], sourceVolts[at]);
            }
        }
        ElectroPneumaticSpec ep = specs.get(k).ep();
        load(TrainWire.APPLICATION, k, ep.application().coilOhms());
        load(TrainWire.HOLDING, k, ep.holding().coilOhms());
        for (int i = 0; i < wires.loads().size(); i++) {
            WireLoad load = wires.loads().get(i);
            if (load.vehicle() == k) {
                load(load.wire(), k, load.ohms());
            }
        }
    }

    private void load(TrainWire wire, int k, double ohms) {
        system.between(node(k, wire.ordinal()), node(k, RETURN), 1 / ohms);
    }

    private void coupling(int k) {
        Arrays.fill(seriesOhms, 0);
        for (int wire = 0; wire < COUNT; wire++) {
            across[wire] = wire;
        }
        for (int i = 0; i < faults.size(); i++) {
            atCoupling(faults.get(i), k);
        }
        for (int wire = 0; wire < COUNT; wire++) {
            WireSpec spec = wires.wires().get(WIRES[wire]);
            double ohms = spec.vehicleOhms() + spec.couplingOhms() + seriesOhms[wire];
            if (ohms < Double.POSITIVE_INFINITY) {
                system.between(node(k, wire), node(k + 1, across[wire]), 1 / ohms);
            }
        }
    }

    private void atCoupling(WireFault fault, int k) {
        if (fault instanceof WireFault.Open f && f.behind() == k) {
            seriesOhms[f.wire().ordinal()] = Double.POSITIVE_INFINITY;
        } else if (fault instanceof WireFault.Resistive f && f.behind() == k) {
            seriesOhms[f.wire().ordinal()] += f.ohms();
        } else if (fault instanceof WireFault.Crossed f && f.behind() == k) {
            int kept = across[f.wire().ordinal()];
            across[f.wire().ordinal()] = across[f.other().ordinal()];
            across[f.other().ordinal()] = kept;
        }
    }

    private void inVehicle(WireFault fault) {
        if (fault instanceof WireFault.ShortedToPlus f) {
            system.toReference(node(f.vehicle(), f.wire().ordinal()), 1 / f.ohms(), f.volts());
        } else if (fault instanceof WireFault.ShortedToMinus f) {
            system.toReference(node(f.vehicle(), f.wire().ordinal()), 1 / f.ohms(), 0);
        } else if (fault instanceof WireFault.Bridged f) {
            int at = node(f.vehicle(), f.wire().ordinal());
            system.between(at, node(f.vehicle(), f.other().ordinal()), 1 / f.ohms());
        }
    }

    /** Voltage against battery minus at the last {@link #settle}, in V. */
    double potential(TrainWire wire, int k) {
        return system.unknown[node(k, wire.ordinal())];
    }

    /** Voltage across a load from the wire to the return, in V. */
    double acrossLoad(TrainWire wire, int k) {
        return potential(wire, k) - potential(TrainWire.RETURN, k);
    }

    /** Current of a cab's source into the wire, in A. */
    double amps(TrainWire wire, int cab) {
        int at = node(cab, wire.ordinal());
        return sourceSiemens[at] * (sourceVolts[at] - system.unknown[at]);
    }
}
