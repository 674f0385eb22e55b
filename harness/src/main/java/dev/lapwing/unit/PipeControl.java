package dev.lapwing.unit;

import dev.lapwing.fixture.Design;
import dev.lapwing.fixture.SimulationFigure;
import dev.lapwing.naming.DesignOption;
import dev.lapwing.plant.CabValve;

/**
 * What the driver's brake valve does with the brake pipe. Only position 1 charges it; between 1 and 2 a design may go
 * on maintaining a pipe that is charged. From 3 to 4 the pipe is let down to a pressure that falls with the handle,
 * and never fed. A vent, whatever opened it, cuts the feed.
 */
final class PipeControl {
    private static final CabValve BOTH_VENTS = CabValve.EMERGENCY.withDumpShare(1);

    private final CabValve feeding;
    private final boolean maintains;
    private final double maintainPascals;
    private final double fedPascals;
    private final double fullServicePascals;
    private boolean maintaining;
    private CabValve graduated = CabValve.LAP;

    PipeControl(Design design, UnitFigures figures) {
        fedPascals = figures.of(SimulationFigure.FEED_PRESSURE);
        fullServicePascals = figures.of(SimulationFigure.FULL_SERVICE_PRESSURE);
        maintainPascals = figures.of(SimulationFigure.MAINTAIN_PRESSURE);
        maintains = design.is(DesignOption.PIPE_MAINTAINED);
        feeding = CabValve.feeding(fedPascals);
    }

    /** @param serviceShare share of the arc of the automatic brake at which the handle stands, 0 to 1 */
    CabValve valve(HandleZone zone, double serviceShare, boolean emergency, boolean dump, UnitInputs in) {
        boolean charged = in.brakePipePascals >= maintainPascals;
        boolean feeds = in.masterOn && !emergency && !dump;
        maintaining =
                feeds && charged && (zone == HandleZone.RELEASE || maintaining && zone == HandleZone.EP_APPLICATION);
        if (emergency || dump) {
            return vents(emergency, dump);
        }
        if (!in.masterOn) {
            return CabValve.LAP;
        }
        return switch (zone) {
            case RELEASE -> feeding;
            case EP_APPLICATION -> maintains && maintaining ? feeding : CabValve.LAP;
            case LAP -> CabValve.LAP;
            case SERVICE, EMERGENCY -> graduated(serviceShare);
        };
    }

    private static CabValve vents(boolean emergency, boolean dump) {
        if (emergency && dump) {
            return BOTH_VENTS;
        }
        return emergency ? CabValve.EMERGENCY : CabValve.DUMP;
    }

    private CabValve graduated(double share) {
        double target = fedPascals + share * (fullServicePascals - fedPascals);
        if (graduated.servicePascals() != target) {
            graduated = CabValve.graduated(target);
        }
        return graduated;
    }
}
