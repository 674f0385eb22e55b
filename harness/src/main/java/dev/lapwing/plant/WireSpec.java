package dev.lapwing.plant;

/**
 * One train wire.
 *
 * @param vehicleOhms    resistance through one vehicle, in ohm
 * @param couplingOhms   resistance of one coupling, in ohm; the sum of both must be above zero
 * @param insulationOhms resistance to battery minus in one vehicle, in ohm
 */
public record WireSpec(double vehicleOhms, double couplingOhms, double insulationOhms) {
    public WireSpec {
        Require.notNegative("wire resistance of a vehicle", vehicleOhms, "ohm");
        Require.notNegative("coupling resistance", couplingOhms, "ohm");
        Require.positive("wire and coupling resistance", vehicleOhms + couplingOhms, "ohm");
        Require.positive("insulation resistance", insulationOhms, "ohm");
    }
}
