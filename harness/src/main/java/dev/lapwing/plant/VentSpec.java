package dev.lapwing.plant;

/**
 * A vehicle's ways of opening a pipe to atmosphere.
 *
 * @param alarm     passenger alarm valve, fully open
 * @param crewValve crew (guard's) valve, fully open
 * @param openHose  one open end of a burst or parted hose, of either pipe
 */
public record VentSpec(Orifice alarm, Orifice crewValve, Orifice openHose) {}
