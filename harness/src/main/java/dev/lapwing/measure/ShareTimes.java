package dev.lapwing.measure;

import dev.lapwing.naming.Signal;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.signal.CrossingSearch;
import dev.lapwing.signal.LevelCrossing;
import dev.lapwing.signal.MovedLevel;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Estimate;

/**
 * When a response reaches a share of its change. Where both states were read by the transducer that tells the crossing,
 * its calibration is in the level and in the reading alike, and leaves the time.
 *
 * @param sight   what is looked at
 * @param signal  that responds
 * @param sampled its channel
 * @param first   state that it goes from
 * @param last    state that it goes to
 * @param window  from the stimulus to the end of what is looked at
 */
record ShareTimes(Sight sight, Signal signal, Sampled sampled, Estimate first, Estimate last, Window window) {

    /** A time since the stimulus and the level reached then, or why there is none. */
    sealed interface Reached {
        record At(Crossed time, double level, long atUs) implements Reached {}

        record Not(Doubt why) implements Reached {}
    }

    Reached at(double share) {
        Estimate level = first.combine(1 - share, share, last);
        boolean rising = last.value() > first.value();
        CrossingSearch search = new CrossingSearch(
                sampled.trace(),
                level.value(),
                rising,
                window,
                Channels.sampleNoise(sampled.instrument()),
                sampled.everyUs());
        return switch (search.advance(sight.seen().closedUs(), true)) {
            case FOUND -> found(search.found().orElseThrow(), level, rising);
            case BEYOND_BEFORE -> not(share, "was past it already before the stimulus", "let it start from rest");
            case HOVERED -> not(share, "hung about it and told no time", "ask for a share on a steeper part");
            case NEVER, LOOKING -> not(share, "did not reach it", "give states that it reaches");
        };
    }

    private Reached found(LevelCrossing crossing, Estimate level, boolean rising) {
        MovedLevel moved = Channels.moved(
                sampled, level.value(), rising, window, sight.seen().closedUs(), crossing);
        Crossed time =
                CrossingTimes.crossed(signal, sampled, crossing, moved, level.components(), sight.stimulusBoundUs());
        return new Reached.At(time, level.value(), window.fromUs() + Math.round(crossing.seconds() * 1e6));
    }

    private Reached not(double share, String what, String mend) {
        return new Reached.Not(new Doubt(
                signal.spoken() + " " + what + ": " + sight.words().value(share, Dimension.RATIO) + " of its change",
                mend));
    }
}
