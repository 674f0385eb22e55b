package dev.lapwing.unit;

import dev.lapwing.fixture.Handle;

/** The cams under the brake handle: what an angle in degrees means. */
final class HandleCam {
    private final double releaseEnds;
    private final double epEnds;
    private final double lapEnds;
    private final double fullServiceBegins;
    private final double emergencyBegins;
    private final Stretch epArc;
    private final Stretch serviceArc;

    /** An arc between two angles. */
    private record Stretch(double from, double to) {
        /** 0 at its beginning, 1 at its end, held there beyond. */
        double share(double degrees) {
            return Math.max(0, Math.min(1, (degrees - from) / (to - from)));
        }
    }

    /**
     * @param detentDegrees distance from a position within which its contacts are made, in degrees
     * @throws IllegalArgumentException if a position or an arc is missing, or positions stand too close for the detents
     */
    HandleCam(Handle handle, double detentDegrees) {
        double release = position(handle, "release");
        double fullEp = position(handle, "full-ep");
        double lap = position(handle, "lap");
        double fullService = position(handle, "full-service");
        double emergency = position(handle, "emergency");
        double gap = Math.min(
                Math.min(fullEp - release, lap - fullEp), Math.min(fullService - lap, emergency - fullService));
        if (!(gap > 2 * detentDegrees)) {
            throw new IllegalArgumentException("handle positions stand " + gap
                    + " degrees apart, too close for a detent of " + detentDegrees + " degrees to each side");
        }
        releaseEnds = release + detentDegrees;
        epEnds = fullEp + detentDegrees;
        lapEnds = lap + detentDegrees;
        fullServiceBegins = fullService - detentDegrees;
        emergencyBegins = emergency - detentDegrees;
        epArc = stretch(handle, "ep-application");
        serviceArc = stretch(handle, "automatic-application");
    }

    private static double position(Handle handle, String name) {
        Double degrees = handle.positions().get(name);
        if (degrees == null) {
            throw new IllegalArgumentException("the handle has no position " + name);
        }
        return degrees;
    }

    private static Stretch stretch(Handle handle, String arc) {
        double from =
                handle.angle(arc, 0).orElseThrow(() -> new IllegalArgumentException("the handle has no arc " + arc));
        return new Stretch(from, handle.angle(arc, 1).orElseThrow());
    }

    HandleZone zone(double degrees) {
        if (degrees <= releaseEnds) {
            return HandleZone.RELEASE;
        }
        if (degrees <= epEnds) {
            return HandleZone.EP_APPLICATION;
        }
        if (degrees <= lapEnds) {
            return HandleZone.LAP;
        }
        return degrees < emergencyBegins ? HandleZone.SERVICE : HandleZone.EMERGENCY;
    }

    /** Whether the handle stands at full service or beyond. */
    boolean braking(double degrees) {
        return degrees >= fullServiceBegins;
    }

    /** Share of the EP arc, 0 to 1. */
    double epShare(double degrees) {
        return epArc.share(degrees);
    }

    /** Share of the arc of the automatic brake, 0 to 1. */
    double serviceShare(double degrees) {
        return serviceArc.share(degrees);
    }
}
