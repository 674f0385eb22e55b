package dev.lapwing.plant;

/**
 * Main reservoir with its compressor and governor, on one vehicle.
 *
 * @param vehicle               index of the vehicle that carries it
 * @param reservoirCubicMetres  volume of the main reservoir, in m³
 * @param delivery              restriction between main reservoir and main reservoir pipe
 * @param freeAirCubicMetresPerSecond what the compressor takes in at ambient pressure, in m³/s; 0 for none
 * @param cutInPascals          gauge pressure of the reservoir below which the governor starts the compressor
 * @param cutOutPascals         gauge pressure at which it stops it, above cut-in
 */
public record MainSupplySpec(
        int vehicle,
        double reservoirCubicMetres,
        Orifice delivery,
        double freeAirCubicMetresPerSecond,
        double cutInPascals,
        double cutOutPascals) {
    public MainSupplySpec {
        Require.positive("main reservoir volume", reservoirCubicMetres, "m³");
        Require.notNegative("compressor intake", freeAirCubicMetresPerSecond, "m³/s");
        Require.positive("governor cut-in", cutInPascals, "Pa");
        if (!(cutOutPascals > cutInPascals)) {
            throw new IllegalArgumentException(
                    "governor must cut out above cut-in, got " + cutInPascals + " and " + cutOutPascals + " Pa");
        }
    }
}
