package dev.lapwing.unit;

/** Where the brake handle stands, in the order in which it passes them from position 1 to position 5. */
enum HandleZone {
    /** Position 1. */
    RELEASE,
    /** From there up to and with position 2: the EP brake is graduated. */
    EP_APPLICATION,
    /** From there up to and with position 3. */
    LAP,
    /** From there to short of position 5, position 4 within: the automatic brake is graduated. */
    SERVICE,
    /** Position 5. */
    EMERGENCY;

    /** Whether this zone lies at that one or beyond it. */
    boolean atLeast(HandleZone other) {
        return compareTo(other) >= 0;
    }
}
