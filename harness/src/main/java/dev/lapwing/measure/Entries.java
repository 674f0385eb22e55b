package dev.lapwing.measure;

import dev.lapwing.finding.Mark;
import dev.lapwing.naming.Signal;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.signal.BandEntry;
import dev.lapwing.signal.BandEntry.Outcome;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Estimate;
import dev.lapwing.uncertainty.Input;
import dev.lapwing.uncertainty.Instrument;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * When a signal comes into a band about a level for good. A level that was read by the same transducer carries its
 * calibration as the reading does, and it leaves the time.
 *
 * @param sight   what is looked at
 * @param signal  that comes in
 * @param sampled its channel
 */
record Entries(Sight sight, Signal signal, Sampled sampled) {

    /**
     * What was found.
     *
     * @param since   time since the stimulus; empty if it was inside throughout, or came in at no time
     * @param outside what was seen where it was outside at the end
     */
    record Entry(Optional<Estimate> since, Optional<String> outside, List<Mark> marks) {}

    /** Into {@code band} to either side of the level, until the end of the window. */
    Entry into(Estimate level, double band, Window window) {
        double low = level.value() - band;
        double high = level.value() + band;
        Outcome outcome = BandEntry.last(
                sampled.trace(), window, low, high, Watched.WIDTH_US, Channels.sampleNoise(sampled.instrument()));
        if (outcome instanceof Outcome.Entered entered) {
            return entered(entered.entry(), level, window);
        }
        if (outcome instanceof Outcome.OutsideAtEnd end) {
            return new Entry(Optional.empty(), Optional.of(outside(end, level, band)), List.of());
        }
        return new Entry(Optional.empty(), Optional.empty(), List.of());
    }

    private String outside(Outcome.OutsideAtEnd end, Estimate level, double band) {
        return signal.spoken() + " was at " + sight.words().value(end.value(), signal.dimension())
                + " when watching ended, not within "
                + sight.words().value(band, signal.dimension()) + " of "
                + sight.words().value(level.value(), signal.dimension());
    }

    private Entry entered(BandEntry entry, Estimate level, Window window) {
        Instrument instrument = sampled.instrument();
        long atUs = window.fromUs() + Math.round(entry.seconds() * 1e6);
        double seconds = (atUs - sight.originUs()) * 1e-6;
        List<Component> parts = new ArrayList<>();
        String key = instrument.point() + "/" + Words.span(entry.region());
        if (entry.slope() == 0) {
            // No slope to be told: it came in somewhere in that stretch.
            parts.add(
                    Component.of("slope/" + key, 1, Input.within(entry.region().seconds() / 2, Dimension.TIME)));
        } else {
            parts.addAll(CrossingTimes.levelDoubt(instrument, signal.dimension(), entry.slope()));
            parts.addAll(Derived.scaled(level.components(), 1 / entry.slope()));
            parts.add(Component.of("noise/" + key, 1, Input.stated(entry.fromNoise(), Dimension.TIME)));
        }
        parts.add(Component.of("interpolation/" + key, 1, Input.within(sampled.everyUs() * 0.5e-6, Dimension.TIME)));
        Estimate since = Timing.sinceStimulus(seconds, sight.stimulusBoundUs(), instrument, parts);
        Mark mark = new Mark(signal.key(), atUs, entry.level(), "inside from here");
        return new Entry(Optional.of(since), Optional.empty(), List.of(mark));
    }
}
