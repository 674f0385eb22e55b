package dev.lapwing.plant;

/**
 * A vehicle's electro-pneumatic (EP) equipment.
 *
 * @param application      valve that fills the cylinder from the supply reservoir while energised
 * @param holding          valve that shuts the EP exhaust while energised
 * @param apply            restriction of the filling path
 * @param exhaust          restriction of the exhaust path
 * @param limitPascals     gauge pressure of the cylinder at which the limiter has shut the filling path
 * @param limitBandPascals pressure below the limit over which it closes in proportion, in Pa
 * @param exhaustsInSeries true where the triple valve exhausts through the holding valve, so that the cylinder empties
 *                         only with the triple valve in release and the holding valve de-energised, through both
 *                         restrictions; false where a double check valve joins two separate exhausts and the cylinder
 *                         follows the higher of the two brakes
 * @param supplyCubicMetres volume of the EP supply reservoir, in m³
 * @param supplyCheck      check valve from the main reservoir pipe to the supply reservoir
 */
public record ElectroPneumaticSpec(
        MagnetValveSpec application,
        MagnetValveSpec holding,
        Orifice apply,
        Orifice exhaust,
        double limitPascals,
        double limitBandPascals,
        boolean exhaustsInSeries,
        double supplyCubicMetres,
        Orifice supplyCheck) {
    public ElectroPneumaticSpec {
        Require.positive("EP limit", limitPascals, "Pa");
        Require.positive("EP limiter band", limitBandPascals, "Pa");
        Require.positive("EP supply reservoir volume", supplyCubicMetres, "m³");
    }
}
