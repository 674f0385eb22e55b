package dev.lapwing.plant;

import java.util.List;
import java.util.Map;

/**
 * The train wires and what hangs on them beside the magnet valves, whose coils belong to their vehicles.
 *
 * @param wires          one entry for every {@link TrainWire}
 * @param loads          further loads
 * @param returnBondOhms resistance by which a new train's return is bonded to battery minus in vehicle 0, in ohm
 */
public record TrainWiresSpec(Map<TrainWire, WireSpec> wires, List<WireLoad> loads, double returnBondOhms) {
    public TrainWiresSpec {
        wires = Map.copyOf(wires);
        loads = List.copyOf(loads);
        Require.positive("return bond", returnBondOhms, "ohm");
        for (TrainWire wire : TrainWire.values()) {
            if (!wires.containsKey(wire)) {
                throw new IllegalArgumentException("no figures for the train wire " + wire);
            }
        }
    }
}
