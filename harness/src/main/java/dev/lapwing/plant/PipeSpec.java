package dev.lapwing.plant;

/**
 * One vehicle's share of a train pipe.
 *
 * @param lengthMetres       developed length from coupling to coupling, in m
 * @param boreMetres         inner diameter, in m
 * @param branchCubicMetres  volume of the branches that always stand at pipe pressure, in m³, not negative
 * @param darcyFriction      Darcy friction factor f, dimensionless, not negative
 * @param jointLoss          loss coefficient K of the hoses and cocks at one coupling, dimensionless, not negative
 */
public record PipeSpec(
        double lengthMetres, double boreMetres, double branchCubicMetres, double darcyFriction, double jointLoss) {
    public PipeSpec {
        Require.positive("pipe length", lengthMetres, "m");
        Require.positive("pipe bore", boreMetres, "m");
        Require.notNegative("branch volume", branchCubicMetres, "m³");
        Require.notNegative("friction factor", darcyFriction, "");
        Require.notNegative("joint loss coefficient", jointLoss, "");
    }

    /** Cross-section of the bore in m². */
    public double areaSquareMetres() {
        return Math.PI / 4 * boreMetres * boreMetres;
    }

    /** Volume of the vehicle's pipe with its branches, in m³. */
    public double volumeCubicMetres() {
        return lengthMetres * areaSquareMetres() + branchCubicMetres;
    }
}
