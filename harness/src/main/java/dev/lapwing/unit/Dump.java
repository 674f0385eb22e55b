package dev.lapwing.unit;

import java.util.EnumSet;
import java.util.Set;

/**
 * The vent that deadman and vigilance open. Once open it stays until it is reset in the stated order: the deadman
 * held and the handle at full service or beyond, one of the two put there anew; for vigilance, besides, the
 * acknowledgement pressed anew with the handle there; and kept so until the pipe has fallen to the pressure of a
 * complete dump. Only then does the handle in release charge again; a handle taken back before, or an acknowledgement
 * pressed before, resets nothing. Where the design lets the deadman stop its own dump, holding it is enough for that.
 */
final class Dump {
    /** What may open it. */
    enum Cause {
        DEADMAN,
        VIGILANCE,
        /** Electronics that went down while they were needed. */
        RESTART,
        /** A fault that only another start clears. */
        FAULT
    }

    private final boolean holdingStopsIt;
    private final double completePascals;
    private final Set<Cause> causes = EnumSet.noneOf(Cause.class);
    private boolean inOrder;
    private boolean acknowledgedInOrder;
    // What is found pressed or in place at the start was not put there anew.
    private boolean heldBefore = true;
    private boolean brakingBefore = true;
    private boolean acknowledgedBefore = true;

    /**
     * @param holdingStopsIt  whether holding the deadman again stops the dump that it began
     * @param completePascals pipe pressure below which a dump is complete, gauge
     */
    Dump(boolean holdingStopsIt, double completePascals) {
        this.holdingStopsIt = holdingStopsIt;
        this.completePascals = completePascals;
    }

    void open(Cause cause) {
        causes.add(cause);
    }

    boolean isOpen() {
        return !causes.isEmpty();
    }

    boolean isOpenBy(Cause cause) {
        return causes.contains(cause);
    }

    /** @param braking whether the handle stands at full service or beyond */
    void step(boolean braking, UnitInputs in) {
        boolean anew = in.deadmanHeld && !heldBefore || braking && !brakingBefore;
        boolean acknowledged = in.acknowledgementPressed && !acknowledgedBefore;
        heldBefore = in.deadmanHeld;
        brakingBefore = braking;
        acknowledgedBefore = in.acknowledgementPressed;
        boolean ready = isOpen() && braking && in.deadmanHeld;
        inOrder = ready && (inOrder || anew);
        acknowledgedInOrder = ready && (acknowledgedInOrder || acknowledged);
        reset(in.brakePipePascals < completePascals, in.deadmanHeld);
    }

    private void reset(boolean complete, boolean held) {
        if (complete && inOrder) {
            causes.remove(Cause.DEADMAN);
            causes.remove(Cause.RESTART);
        }
        if (complete && acknowledgedInOrder) {
            causes.remove(Cause.VIGILANCE);
        }
        if (holdingStopsIt && held) {
            causes.remove(Cause.DEADMAN);
        }
    }
}
