package dev.lapwing.plan;

import dev.lapwing.finding.Limit;

/** How long something is watched that has a limit in time, so that what comes late is measured and not called never. */
final class Patience {
    private static final double MORE = 2;
    private static final double NO_UPPER_END = 30;

    private Patience() {}

    /** In s after the origin: twice the upper end and 2 s; twice the lower end and 30 s where there is no upper one. */
    static double of(Limit limit) {
        return limit.upper().isPresent()
                ? 2 * limit.upper().getAsDouble() + MORE
                : 2 * limit.lower().orElseThrow() + NO_UPPER_END;
    }
}
