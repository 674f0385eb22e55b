package dev.lapwing.judge;

import dev.lapwing.finding.Finding;
import java.util.Optional;

/**
 * A finding as far as it is relied upon.
 *
 * @param lapse the calibration that it rested on and that held no longer, if that is why it says nothing of the unit
 */
record Relied(Finding finding, Optional<Overdue.Lapse> lapse) {
    /** No calibration speaks against it. */
    static Relied asItIs(Finding finding) {
        return new Relied(finding, Optional.empty());
    }
}
