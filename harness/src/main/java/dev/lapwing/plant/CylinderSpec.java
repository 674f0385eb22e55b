package dev.lapwing.plant;

/**
 * A vehicle's brake cylinders taken as one, whose volume grows while the pistons travel against their springs.
 *
 * @param deadCubicMetres   volume with the pistons home, in m³
 * @param sweptCubicMetres  further volume with the pistons out, in m³, not negative
 * @param strokeStartPascals gauge pressure at which the pistons begin to move
 * @param strokeEndPascals  gauge pressure at which they are out, above the start
 */
public record CylinderSpec(
        double deadCubicMetres, double sweptCubicMetres, double strokeStartPascals, double strokeEndPascals) {
    public CylinderSpec {
        Require.positive("cylinder dead volume", deadCubicMetres, "m³");
        Require.notNegative("cylinder swept volume", sweptCubicMetres, "m³");
        Require.notNegative("stroke start", strokeStartPascals, "Pa");
        Require.positive("stroke end", strokeEndPascals, "Pa");
        if (!(strokeEndPascals > strokeStartPascals)) {
            throw new IllegalArgumentException(
                    "stroke must end above its start, got " + strokeStartPascals + " to " + strokeEndPascals + " Pa");
        }
    }
}
