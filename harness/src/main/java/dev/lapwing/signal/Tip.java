package dev.lapwing.signal;

/**
 * How far a signal may have gone beyond its greatest or least sample, between samples. Where it turns in a sharp tip,
 * straight lines through the sample and its neighbours meet beyond it by half of what the way to the one neighbour is
 * longer than that to the other; where it turns smoothly, by less.
 */
public final class Tip {
    private Tip() {}

    /**
     * @param greatest true for the greatest sample, false for the least
     * @param noise    what noise may make of a difference of two ways, the trace's unit
     * @return the most that it may have gone beyond, 0 or more, the trace's unit
     */
    public static double beyond(Trace trace, Window window, boolean greatest, double noise) {
        int from = trace.firstAtOrAfter(window.fromUs());
        int to = trace.firstAtOrAfter(window.toUs() + 1);
        int sign = greatest ? 1 : -1;
        int at = from;
        for (int i = from; i < to; i++) {
            at = sign * trace.value(i) > sign * trace.value(at) ? i : at;
        }
        if (at <= from || at + 1 >= to) {
            return 0;
        }
        double before = sign * (trace.value(at) - trace.value(at - 1));
        double after = sign * (trace.value(at) - trace.value(at + 1));
        return Math.max(0, Math.abs(before - after) - noise) / 2;
    }
}
