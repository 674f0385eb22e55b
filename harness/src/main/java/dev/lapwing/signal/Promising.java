package dev.lapwing.signal;

import java.util.Optional;

/**
 * The blocks of a trace that hold its least and its greatest sample in a window, as far as is known without looking at
 * each: what is reached there need not be looked for where no sample goes so far.
 */
record Promising(Optional<Window> least, Optional<Window> greatest) {
    /** What is reached in a block is told by sums that began elsewhere; they differ by far less than this share. */
    static final double ROUNDING = 1e-9;

    static Promising of(Trace trace, long fromUs, long toUs) {
        Optional<Window> least = Optional.empty();
        Optional<Window> greatest = Optional.empty();
        Bounds known = Bounds.NONE;
        int first = (trace.firstAtOrAfter(fromUs) + MovingMean.BLOCK - 1) / MovingMean.BLOCK * MovingMean.BLOCK;
        int end = trace.firstAtOrAfter(toUs + 1);
        for (int from = first; from + MovingMean.BLOCK <= end; from += MovingMean.BLOCK) {
            int to = from + MovingMean.BLOCK;
            Bounds bounds = trace.bounds(from, to);
            if (bounds.least() < known.least()) {
                least = Optional.of(new Window(trace.timeUs(from), trace.timeUs(to - 1)));
            }
            if (bounds.greatest() > known.greatest()) {
                greatest = Optional.of(new Window(trace.timeUs(from), trace.timeUs(to - 1)));
            }
            known = known.and(bounds);
        }
        return new Promising(least, greatest);
    }
}
