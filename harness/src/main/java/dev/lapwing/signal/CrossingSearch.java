package dev.lapwing.signal;

import java.util.Optional;

/**
 * Looks for the first time that a signal goes beyond a level and stays there, in a trace that may still be growing.
 * What it has found never changes, so that following a finished trace gives the same as following it live.
 *
 * <p>A sample beyond the level after one that is not is a candidate. It counts if the mean over the hold time after it
 * is beyond as well. Where one step between samples clears the noise by {@value CrossingFit#CLEAR}, the crossing is
 * where the chord between them goes through the level. Elsewhere noise reaches the level before the signal does, so a
 * straight line is fitted to the samples around the candidate, over the narrowest region in which the line clears the
 * noise by that much, and the crossing is where the line goes through the level. A candidate about which the signal
 * has no slope that can be told from noise is passed over.
 */
public final class CrossingSearch {
    /** The signal must be beyond the level on average for so long, in µs, or for four sample intervals. */
    static final long HOLD_US = 20_000;

    private final Trace trace;
    private final double level;
    private final int sign;
    private final Window window;
    private final long holdUs;
    private final CrossingFit fit;
    private int next = -1;
    private int candidate = -1;
    private boolean hovered;
    private Progress progress = Progress.LOOKING;
    private Optional<LevelCrossing> found = Optional.empty();

    /** How far a search is. */
    public enum Progress {
        /** More of the trace is needed. */
        LOOKING,
        FOUND,
        /** The window is over and there was none. */
        NEVER,
        /** The signal was beyond the level before the window. */
        BEYOND_BEFORE,
        /** It reached the level, and no time could be told since it neither left nor passed it. */
        HOVERED;

        public boolean over() {
            return this != LOOKING;
        }
    }

    /**
     * @param trace   may grow
     * @param level   in the trace's unit
     * @param rising  true for from below, false for from above
     * @param window  in which the crossing must lie; its start is the zero of the time that is found
     * @param noise   standard deviation of one sample, the trace's unit; 0 if there is none
     * @param everyUs sample interval in µs
     */
    public CrossingSearch(Trace trace, double level, boolean rising, Window window, double noise, long everyUs) {
        this.trace = trace;
        this.level = level;
        this.sign = rising ? 1 : -1;
        this.window = window;
        this.holdUs = Math.max(HOLD_US, 4 * everyUs);
        this.fit = new CrossingFit(trace, level, sign, noise, everyUs, window.fromUs());
    }

    /** The crossing, once found. */
    public Optional<LevelCrossing> found() {
        return found;
    }

    /**
     * Takes in samples up to that bench time.
     *
     * @param untilUs samples after it are not looked at
     * @param last    true if no more samples will come: what there is must do
     */
    public Progress advance(long untilUs, boolean last) {
        if (progress == Progress.LOOKING && next < 0) {
            begin(untilUs, last);
        }
        while (progress == Progress.LOOKING && next >= 0) {
            boolean moved = candidate < 0 ? look(untilUs, last) : settle(untilUs, last);
            if (!moved) {
                break;
            }
        }
        return progress;
    }

    private void begin(long untilUs, boolean last) {
        int start = trace.firstAtOrAfter(window.fromUs());
        boolean reached = start < trace.size() && trace.timeUs(start) <= untilUs;
        if (!reached) {
            progress = last ? Progress.NEVER : Progress.LOOKING;
            return;
        }
        next = start;
        Window before = new Window(window.fromUs() - holdUs, window.fromUs() - 1);
        double standing = Samples.of(trace, before).map(Samples::mean).orElse(trace.value(start));
        if (beyond(standing)) {
            progress = Progress.BEYOND_BEFORE;
        }
    }

    /** Goes on to the next candidate. */
    private boolean look(long untilUs, boolean last) {
        if (next >= trace.size() || trace.timeUs(next) > Math.min(untilUs, window.toUs())) {
            boolean past = last || next < trace.size() && trace.timeUs(next) > window.toUs();
            if (past) {
                progress = hovered ? Progress.HOVERED : Progress.NEVER;
            }
            return false;
        }
        boolean first = trace.timeUs(next) < window.fromUs() || next == 0 || trace.timeUs(next - 1) < window.fromUs();
        if (beyond(trace.value(next)) && (first || !beyond(trace.value(next - 1)))) {
            candidate = next;
        }
        next++;
        return true;
    }

    /** Confirms the candidate or drops it; false if that needs more samples. */
    private boolean settle(long untilUs, boolean last) {
        long holdEndUs = trace.timeUs(candidate) + holdUs;
        boolean complete = last || reaches(holdEndUs, untilUs);
        if (!complete) {
            return false;
        }
        Window hold =
                new Window(trace.timeUs(candidate), Math.min(holdEndUs, Math.max(untilUs, trace.timeUs(candidate))));
        boolean stays = Samples.of(trace, hold).map(a -> beyond(a.mean())).orElse(false);
        if (!stays) {
            candidate = -1;
            return true;
        }
        CrossingFit.Result result = fit.at(candidate, untilUs, last);
        if (result.needsMore()) {
            return false;
        }
        if (result.crossing().isPresent()) {
            found = result.crossing();
            progress = Progress.FOUND;
        } else {
            hovered = true;
            next = Math.max(next, trace.firstAtOrAfter(holdEndUs));
        }
        candidate = -1;
        return true;
    }

    private boolean reaches(long timeUs, long untilUs) {
        return untilUs >= timeUs && trace.size() > 0 && trace.timeUs(trace.size() - 1) >= timeUs;
    }

    private boolean beyond(double value) {
        return sign * (value - level) > 0;
    }
}
