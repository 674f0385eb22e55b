package dev.lapwing.unit;

/**
 * The lock of the reverser. It is free only in an open cab with the pipe charged and the deadman held. A reverser
 * that was forced while locked counts as off until it has been at off and moved with the lock free.
 */
final class ReverserInterlock {
    /** Where the reverser stands; both directions at once are none. */
    enum Direction {
        OFF,
        FORWARD,
        REVERSE;

        static Direction of(UnitInputs in) {
            if (in.reverserForward == in.reverserReverse) {
                return OFF;
            }
            return in.reverserForward ? FORWARD : REVERSE;
        }
    }

    private final double pressurePascals;
    private boolean unlocked;
    private Direction before = Direction.OFF;
    private Direction accepted = Direction.OFF;

    /** @param pressurePascals brake pipe pressure above which it is free, gauge */
    ReverserInterlock(double pressurePascals) {
        this.pressurePascals = pressurePascals;
    }

    /** @param powered whether there is a supply for the lock's magnet, which frees it */
    void step(boolean powered, UnitInputs in) {
        unlocked = powered && in.masterOn && in.deadmanHeld && in.brakePipePascals > pressurePascals;
        Direction stands = Direction.of(in);
        if (stands != before) {
            accepted = unlocked ? stands : Direction.OFF;
        }
        before = stands;
    }

    boolean unlocked() {
        return unlocked;
    }

    /** Whether a direction was selected in the right order and still is. */
    boolean selected() {
        return accepted != Direction.OFF;
    }
}
