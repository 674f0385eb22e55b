package dev.lapwing.plant;

/**
 * A triple valve: graduable on application, direct in release. Differences are auxiliary minus brake pipe, in Pa.
 *
 * @param apply            from the auxiliary reservoir to the cylinder, in the applying position
 * @param release          from the cylinder to atmosphere, in the releasing position
 * @param groove           the feed groove between brake pipe and auxiliary reservoir, open both ways in release
 * @param applyPascals     leaves release for apply above this difference
 * @param lapPascals       leaves apply for lap below this difference
 * @param reapplyPascals   leaves lap for apply above this difference
 * @param releasePascals   leaves any position for release when the pipe is above the auxiliary by more than this
 * @param deliveryLimitPascals gauge pressure of the cylinder at which a limiting valve ends the automatic delivery;
 *                         positive infinity where there is none. Without one a cylinder that already holds EP air rises
 *                         above the equalisation of an empty one
 */
public record TripleValveSpec(
        Orifice apply,
        Orifice release,
        Orifice groove,
        double applyPascals,
        double lapPascals,
        double reapplyPascals,
        double releasePascals,
        double deliveryLimitPascals) {
    public TripleValveSpec {
        Require.positive("triple valve apply threshold", applyPascals, "Pa");
        Require.positive("triple valve lap threshold", lapPascals, "Pa");
        Require.positive("triple valve re-apply threshold", reapplyPascals, "Pa");
        Require.positive("triple valve release threshold", releasePascals, "Pa");
        if (!(deliveryLimitPascals > 0)) {
            throw new IllegalArgumentException(
                    "delivery limit must be above zero, got " + deliveryLimitPascals + " Pa");
        }
        if (!(lapPascals < reapplyPascals && reapplyPascals <= applyPascals)) {
            throw new IllegalArgumentException("triple valve thresholds must rise from lap (" + lapPascals
                    + " Pa) over re-apply (" + reapplyPascals + " Pa) to apply (" + applyPascals + " Pa)");
        }
    }
}
