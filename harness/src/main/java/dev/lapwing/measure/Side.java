package dev.lapwing.measure;

/** How what was not seen is taken. */
enum Side {
    /** As it was before it was lost. */
    AS_BEFORE,
    /** As makes the condition least true. */
    WORST,
    /** As makes it most true. */
    BEST
}
