package dev.lapwing.measure;

import dev.lapwing.finding.Mark;
import dev.lapwing.naming.Signal;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.signal.BandEntry;
import dev.lapwing.signal.BandEntry.Outcome;
import dev.lapwing.signal.Extremes;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Estimate;
import dev.lapwing.uncertainty.Input;
import dev.lapwing.uncertainty.Instrument;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.DoubleStream;

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
     * An edge of the band so many standard deviations of a sample short of the end of the range is left visibly: what
     * the end cuts off the noise moves a mean by less than 0.01 of them.
     */
    private static final int END_CLEAR = 2;

    /**
     * What was found.
     *
     * @param since   time since the stimulus; empty if it was inside throughout, or came in at no time
     * @param outside what was seen where it was outside at the end
     * @param doubt   why it cannot be told whether it ever left
     * @param cutOff  why it may have been outside once more, beyond the end of the range
     */
    record Entry(
            Optional<Estimate> since,
            Optional<Outside> outside,
            Optional<Doubt> doubt,
            Optional<Doubt> cutOff,
            List<Mark> marks) {

        static Entry outside(Outside outside) {
            return new Entry(Optional.empty(), Optional.of(outside), Optional.empty(), Optional.empty(), List.of());
        }
    }

    /**
     * Outside at the end.
     *
     * @param instead what was seen, a clause
     * @param off     its distance from the level, with its sign
     * @param shortBy how far beyond the band that is
     */
    record Outside(String instead, Estimate off, double shortBy) {
        Measurement.NeverHappened never(String quantity, List<Mark> marks, Window window) {
            return new Measurement.NeverHappened(instead, Optional.of(off), shortBy, quantity, marks, window);
        }
    }

    /** Into {@code band} to either side of the level, until the end of the window. */
    Entry into(Estimate level, double band, Window window) {
        double low = level.value() - band;
        double high = level.value() + band;
        Outcome outcome = BandEntry.last(
                sampled.trace(), window, low, high, Watched.WIDTH_US, Channels.sampleNoise(sampled.instrument()));
        if (outcome instanceof Outcome.Entered entered) {
            long atUs = window.fromUs() + Math.round(entered.entry().seconds() * 1e6);
            Estimate since = since(entered.entry(), level, atUs);
            double off = elsewhere(entered.entry(), level, band, window).max().orElse(0);
            Estimate told =
                    CloseBy.of(since, off, "level close by").map(since::with).orElse(since);
            Mark mark = new Mark(signal.key(), atUs, entered.entry().level(), "inside from here");
            Optional<Doubt> cutOff = cutOff(level, band, new Window(atUs, window.toUs()));
            return new Entry(Optional.of(told), Optional.empty(), Optional.empty(), cutOff, List.of(mark));
        }
        if (outcome instanceof Outcome.OutsideAtEnd end) {
            return Entry.outside(outside(end, level, band, window));
        }
        return new Entry(
                Optional.empty(),
                Optional.empty(),
                doubtOfStaying(level, band, window),
                cutOff(level, band, window),
                List.of());
    }

    /** Where an end of the range lies within the band, what went beyond it reads as if it had stayed inside. */
    private Optional<Doubt> cutOff(Estimate level, double band, Window inside) {
        double clear = END_CLEAR * Channels.sampleNoise(sampled.instrument());
        boolean high = level.value() + band > sampled.greatest() - clear;
        boolean low = level.value() - band < sampled.least() + clear;
        return Extremes.of(sampled.trace(), inside, Watched.WIDTH_US)
                .flatMap(extremes -> Doubt.cutOff(signal, sampled, extremes, high, low, sight.words()));
    }

    /** By how many seconds it came in at other times with the band wider and narrower by what the edge may be off. */
    private DoubleStream elsewhere(BandEntry entry, Estimate level, double band, Window window) {
        double noise = Channels.sampleNoise(sampled.instrument());
        Input scatter = Input.stated(Channels.meanNoise(sampled), signal.dimension());
        double edge = Levels.reading(entry.level(), sampled.instrument(), scatter, Words.span(entry.region()))
                .minus(level)
                .expanded();
        return DoubleStream.of(-edge, edge)
                .map(wider -> seconds(level.value(), Math.max(0, band + wider), window, noise))
                .map(other -> Math.abs(other - entry.seconds()));
    }

    /** After the window's start: 0 if it never left the band, the whole window if it was outside at its end. */
    private double seconds(double level, double band, Window window, double noise) {
        Outcome outcome = BandEntry.last(sampled.trace(), window, level - band, level + band, Watched.WIDTH_US, noise);
        if (outcome instanceof Outcome.Entered entered) {
            return entered.entry().seconds();
        }
        return outcome instanceof Outcome.OutsideAtEnd ? window.seconds() : 0;
    }

    private Outside outside(Outcome.OutsideAtEnd end, Estimate level, double band, Window window) {
        Estimate off = off(end.value(), level, window);
        String clause = signal.spoken() + " was "
                + sight.words().value(Math.abs(off.value()), signal.dimension()) + " away from "
                + sight.words().value(level.value(), signal.dimension()) + " when watching ended, not within "
                + sight.words().value(band, signal.dimension());
        return new Outside(clause, off, Math.abs(off.value()) - band);
    }

    private Estimate off(double value, Estimate level, Window window) {
        return Extremes.of(sampled.trace(), window, Watched.WIDTH_US)
                .map(extremes -> Stays.extreme(sampled, signal.dimension(), extremes, value, window))
                .orElse(level)
                .minus(level);
    }

    /** What came to an edge of the band by less than its doubt may have left it. */
    private Optional<Doubt> doubtOfStaying(Estimate level, double band, Window window) {
        Extremes extremes =
                Extremes.of(sampled.trace(), window, Watched.WIDTH_US).orElseThrow();
        for (double value : new double[] {extremes.least(), extremes.greatest()}) {
            Estimate off = off(value, level, window);
            if (Math.abs(off.value()) > band - off.expanded()) {
                return Optional.of(new Doubt(
                        signal.spoken() + " came within its doubt of the edge of the band: "
                                + sight.words().estimate(off) + " from the level",
                        "choose another band"));
            }
        }
        return Optional.empty();
    }

    private Estimate since(BandEntry entry, Estimate level, long atUs) {
        Instrument instrument = sampled.instrument();
        double seconds = (atUs - sight.originUs()) * 1e-6;
        List<Component> parts = new ArrayList<>();
        String key = instrument.point() + "/" + Words.span(entry.region());
        if (entry.slope() == 0) {
            // No slope to be told: it came in somewhere in that stretch.
            parts.add(
                    Component.of("slope/" + key, 1, Input.within(entry.region().seconds() / 2, Dimension.TIME)));
        } else {
            parts.addAll(CrossingTimes.levelDoubt(entry.level(), instrument, signal.dimension(), entry.slope()));
            parts.addAll(Derived.scaled(level.components(), 1 / entry.slope()));
            parts.add(Component.of("noise/" + key, 1, Input.stated(entry.fromNoise(), Dimension.TIME)));
        }
        parts.add(Component.of("interpolation/" + key, 1, Input.within(sampled.everyUs() * 0.5e-6, Dimension.TIME)));
        return Timing.sinceStimulus(seconds, sight.stimulusBoundUs(), instrument, parts);
    }
}
