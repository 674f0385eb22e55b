package dev.lapwing.unit;

import java.util.EnumSet;
import java.util.Set;

/**
 * The vent that deadman and vigilance open. Once open it stays until its cause is reset in the stated order: the handle to
 * full service or beyond, then, still there, the deadman pressed anew (for vigilance the acknowledgement), and the
 * pipe let down below the pressure of a complete dump, before or after. Pressing first and moving the handle then resets
 * nothing. Where the design lets the deadman stop its own dump, holding it is enough for that.
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
    private boolean pressedInOrder;
    private boolean acknowledgedInOrder;
    // What is found pressed at the start was not pressed anew.
    private boolean heldBefore = true;
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
        boolean pressed = in.deadmanHeld && !heldBefore;
        boolean acknowledged = in.acknowledgementPressed && !acknowledgedBefore;
        heldBefore = in.deadmanHeld;
        acknowledgedBefore = in.acknowledgementPressed;
        if (causes.isEmpty()) {
            pressedInOrder = false;
            acknowledgedInOrder = false;
            return;
        }
        pressedInOrder = braking && in.deadmanHeld && (pressedInOrder || pressed);
        acknowledgedInOrder = braking && (acknowledgedInOrder || acknowledged);
        reset(in.brakePipePascals < completePascals, in.deadmanHeld);
    }

    private void reset(boolean complete, boolean held) {
        if (complete && pressedInOrder) {
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
