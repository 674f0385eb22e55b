package dev.lapwing.unit;

/** What the EP brake of every vehicle shall do. */
enum EpCommand {
    /** Both train wires dead: cylinders exhaust. */
    RELEASE,
    /** Holding alone: lap. */
    HOLD,
    /** Holding and application: cylinders fill. */
    APPLY
}
