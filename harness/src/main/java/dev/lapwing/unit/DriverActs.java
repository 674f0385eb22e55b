package dev.lapwing.unit;

/**
 * What counts as a sign of a wakeful driver: a press of the acknowledgement, not its being held; a movement of the
 * brake handle by more than noise and tremor; another notch of the power handle. Where the design says so, brake
 * handle and power handle count only once in a row each. An acknowledgement found pressed at the start is no press,
 * and a fault.
 */
final class DriverActs {
    private enum Control {
        NONE,
        ACKNOWLEDGEMENT,
        BRAKE_HANDLE,
        POWER_HANDLE
    }

    private final double activityDegrees;
    private final boolean onceInARow;
    private boolean pressedBefore = true;
    private boolean stuckSinceStart = true;
    private double restDegrees = Double.NaN;
    private int notchBefore = -1;
    private Control last = Control.NONE;

    DriverActs(double activityDegrees, boolean onceInARow) {
        this.activityDegrees = activityDegrees;
        this.onceInARow = onceInARow;
    }

    /** Whether something in this scan counts. */
    boolean step(UnitInputs seen) {
        boolean pressed = seen.acknowledgementPressed && !pressedBefore;
        pressedBefore = seen.acknowledgementPressed;
        stuckSinceStart &= seen.acknowledgementPressed;
        boolean moved = Math.abs(seen.handleDegrees - restDegrees) >= activityDegrees;
        if (moved || Double.isNaN(restDegrees)) {
            restDegrees = seen.handleDegrees;
        }
        boolean notched = notchBefore >= 0 && seen.powerNotch != notchBefore;
        notchBefore = seen.powerNotch;
        return counts(pressed, Control.ACKNOWLEDGEMENT)
                | counts(moved, Control.BRAKE_HANDLE)
                | counts(notched, Control.POWER_HANDLE);
    }

    private boolean counts(boolean acted, Control control) {
        boolean refused = onceInARow && control != Control.ACKNOWLEDGEMENT && control == last;
        if (!acted || refused) {
            return false;
        }
        last = control;
        return true;
    }

    /** Whether the acknowledgement has been pressed ever since the start. */
    boolean stuckSinceStart() {
        return stuckSinceStart;
    }
}
