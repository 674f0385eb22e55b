package dev.lapwing.unit;

import dev.lapwing.fixture.Design;
import dev.lapwing.fixture.SimulationFigure;
import dev.lapwing.naming.DesignOption;

/**
 * What the handle calls for of the EP brake: released in position 1, self-lapped between 1 and 2, and beyond held as
 * it is or released, as the design states. It obeys only once the handle has been in position 1 since the cab was
 * opened, so that opening with the handle anywhere else gives not so much as a pulse.
 */
final class EpBrake {
    private final boolean keptBeyond;
    private final double fullPascals;
    private final double startShare;
    private final double feedbackError;
    private final double driftPascalsPerSecond;
    private final double applyBand;
    private final double releaseBand;
    private final Lapping lapping;
    private boolean obeys;
    private boolean inLap;
    private double lapPascals;
    private double demandPascals;

    EpBrake(Design design, UnitFigures figures, Lapping lapping) {
        keptBeyond = design.is(DesignOption.EP_KEPT);
        fullPascals = figures.of(SimulationFigure.EP_FULL_PRESSURE);
        startShare = figures.of(SimulationFigure.EP_START_SHARE);
        feedbackError = figures.of(SimulationFigure.FEEDBACK_ERROR);
        driftPascalsPerSecond = figures.of(SimulationFigure.LAP_DRIFT);
        applyBand = figures.of(SimulationFigure.LAPPING_BAND_APPLY);
        releaseBand = figures.of(SimulationFigure.LAPPING_BAND_RELEASE);
        this.lapping = lapping;
    }

    /** @param share of the EP arc at which the handle stands, 0 to 1 */
    EpCommand step(double nowSeconds, double stepSeconds, HandleZone zone, double share, UnitInputs in) {
        obeys = in.masterOn && (obeys || zone == HandleZone.RELEASE);
        boolean beyond = zone.atLeast(HandleZone.LAP);
        demandPascals = obeys && zone == HandleZone.EP_APPLICATION ? demand(share) : 0;
        double feedback = in.cylinderPascals + feedbackError;
        if (obeys && beyond && keptBeyond) {
            return lap(stepSeconds, feedback);
        }
        inLap = false;
        return demandPascals > 0 ? lapping.follow(nowSeconds, demandPascals, feedback) : EpCommand.RELEASE;
    }

    private double demand(double share) {
        return share <= startShare ? 0 : fullPascals * (share - startShare) / (1 - startShare);
    }

    /** Holds what was there; where the held value creeps, follows it that way and never makes up the other. */
    private EpCommand lap(double stepSeconds, double feedback) {
        if (!inLap) {
            inLap = true;
            lapPascals = feedback;
        }
        lapPascals += driftPascalsPerSecond * stepSeconds;
        if (driftPascalsPerSecond < 0 && feedback > Math.max(0, lapPascals) + releaseBand) {
            return EpCommand.RELEASE;
        }
        return driftPascalsPerSecond > 0 && feedback < lapPascals - applyBand ? EpCommand.APPLY : EpCommand.HOLD;
    }

    /** What it is graduated to, gauge; 0 outside the EP arc. */
    double demandPascals() {
        return demandPascals;
    }
}
