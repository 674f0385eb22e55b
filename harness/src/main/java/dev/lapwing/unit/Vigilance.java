package dev.lapwing.unit;

/**
 * Cyclic vigilance: after a time without an act of the driver a light, after a further one a sounder, after a last
 * one the dump. An act at any stage before the dump begins a whole new cycle. While it rests nothing is shown and its
 * time stands still, so that nobody gains a fresh cycle by making it rest.
 */
final class Vigilance {
    /** What it does. */
    enum Stage {
        QUIET,
        LIGHT,
        SOUNDER,
        DUMP
    }

    private static final double ROUNDING_SECONDS = 1e-9;

    private final double lightSeconds;
    private final double sounderSeconds;
    private final double dumpSeconds;
    private double elapsed;
    private boolean rests = true;

    /**
     * @param cycle   without an act until the light, in s
     * @param light   from light to sounder, in s
     * @param sounder from sounder to dump, in s
     */
    Vigilance(double cycle, double light, double sounder) {
        lightSeconds = cycle - ROUNDING_SECONDS;
        sounderSeconds = lightSeconds + light;
        dumpSeconds = sounderSeconds + sounder;
    }

    /** @param runs whether it watches now; @param acted whether the driver acted in this step */
    void step(double stepSeconds, boolean runs, boolean acted) {
        rests = !runs;
        boolean expired = elapsed >= dumpSeconds;
        if (acted && !expired) {
            elapsed = 0;
        } else if (runs) {
            elapsed += stepSeconds;
        }
    }

    /** Begins a new cycle after its dump was reset. */
    void restart() {
        elapsed = 0;
    }

    Stage stage() {
        if (rests || elapsed < lightSeconds) {
            return Stage.QUIET;
        }
        if (elapsed < sounderSeconds) {
            return Stage.LIGHT;
        }
        return elapsed < dumpSeconds ? Stage.SOUNDER : Stage.DUMP;
    }
}
