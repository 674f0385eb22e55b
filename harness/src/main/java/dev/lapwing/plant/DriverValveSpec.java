package dev.lapwing.plant;

/**
 * The ports of a driver's brake valve; every cab of the train has the same.
 *
 * @param feed              from the main reservoir pipe to the brake pipe
 * @param feedBandPascals   pressure below the regulated one over which the feed throttles in proportion, in Pa
 * @param service           service exhaust
 * @param serviceBandPascals pressure above the target over which the service exhaust throttles in proportion, in Pa
 * @param emergency         emergency port, fully open
 * @param dump              vent of deadman and vigilance, fully open
 */
public record DriverValveSpec(
        Orifice feed,
        double feedBandPascals,
        Orifice service,
        double serviceBandPascals,
        Orifice emergency,
        Orifice dump) {
    public DriverValveSpec {
        Require.positive("feed band", feedBandPascals, "Pa");
        Require.positive("service band", serviceBandPascals, "Pa");
    }
}
