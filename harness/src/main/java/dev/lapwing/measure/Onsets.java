package dev.lapwing.measure;

import dev.lapwing.finding.Mark;
import dev.lapwing.measure.Measurement.Measured;
import dev.lapwing.measure.Measurement.NeverHappened;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.signal.Onset;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Estimate;
import dev.lapwing.uncertainty.Input;
import dev.lapwing.uncertainty.Instrument;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * When movements begin, by the change point that fits the samples best, and how fast a beginning goes along the
 * train. A knee in time owes nothing to what a transducer reads too high or too low.
 */
final class Onsets {
    /** How long before the stimulus a signal must have been at rest, in µs. */
    private static final long REST_US = 500_000;

    private final Sight sight;

    Onsets(Sight sight) {
        this.sight = sight;
    }

    Measurement onset(Check.Onset check) {
        Window window = sight.between(0, check.patience());
        String quantity = "time for " + check.signal().spoken() + " to begin to " + verb(check.rising());
        Told told = told(check.signal(), check.rising(), window);
        if (told.doubt().isPresent()) {
            return told.doubt().get().of(quantity, window);
        }
        return told.seconds()
                .<Measurement>map(time -> new Measured(time, quantity, told.marks(), looked(told, window)))
                .orElseGet(() -> new NeverHappened(
                        told.instead() + " within " + sight.words().value(check.patience(), Dimension.TIME),
                        Optional.empty(),
                        0,
                        quantity,
                        told.marks(),
                        window));
    }

    private static Window looked(Told told, Window window) {
        return new Window(
                window.fromUs(), Math.max(window.fromUs(), told.marks().get(0).timeUs()));
    }

    private static String verb(boolean rising) {
        return rising ? "rise" : "fall";
    }

    /** The time of an onset; or what was there instead; or why it cannot be told. */
    private record Told(Optional<Estimate> seconds, String instead, List<Mark> marks, Optional<Doubt> doubt) {
        static Told not(Doubt doubt) {
            return new Told(Optional.empty(), "", List.of(), Optional.of(doubt));
        }
    }

    private Told told(Signal signal, boolean rising, Window window) {
        Window whole = new Window(window.fromUs() - REST_US, window.toUs());
        Optional<Doubt> doubt = sight.cutShort(window.toUs()).or(() -> sight.doubt(signal, whole));
        if (doubt.isPresent()) {
            return Told.not(doubt.get());
        }
        Sampled sampled = sight.recording().sampled(signal).orElseThrow();
        if (!sampled.instrument().stampedAtSource()) {
            // Each sample is off by another part of the poll interval, and a knee is made of nothing but their times.
            return Told.not(new Doubt(
                    "the bench does not stamp " + signal.spoken() + " where it is read: no beginning can be told",
                    "measure it on a bench that stamps its samples, or ask for the time to a level"));
        }
        double noise = Channels.sampleNoise(sampled.instrument());
        Onset.Found found = Onset.of(sampled.trace(), rising, window, REST_US, noise, Watched.WIDTH_US);
        if (found instanceof Onset.Found.At at) {
            return told(signal, sampled, at.onset(), window);
        }
        if (found instanceof Onset.Found.Still still) {
            String clause = signal.spoken() + " did not " + verb(rising) + "; it got to "
                    + sight.words().value(still.furthest(), signal.dimension());
            Mark mark = new Mark(signal.key(), still.atUs(), still.furthest(), "furthest");
            return new Told(Optional.empty(), clause, List.of(mark), Optional.empty());
        }
        return Told.not(why(signal, found));
    }

    private Doubt why(Signal signal, Onset.Found found) {
        if (found instanceof Onset.Found.Restless) {
            return new Doubt(
                    signal.spoken() + " was moving already before the stimulus",
                    "let it come to rest for " + sight.words().time(REST_US) + " first");
        }
        return found instanceof Onset.Found.Hidden
                ? new Doubt(
                        signal.spoken() + " begins so softly that noise hides when",
                        "use a quicker stream or a transducer with less noise")
                : new Doubt(
                        "there are too few samples of " + signal.spoken() + " about its beginning",
                        "use a quicker stream");
    }

    private Told told(Signal signal, Sampled sampled, Onset onset, Window window) {
        Instrument instrument = sampled.instrument();
        // Between two samples nobody saw where it began.
        double unseen = sampled.everyUs() * 0.5e-6;
        String key = instrument.point() + "/" + Words.span(onset.region());
        List<Component> parts = List.of(
                Component.of("noise/" + key, 1, Input.stated(onset.fromNoise(), Dimension.TIME)),
                Component.of("interpolation/" + key, 1, Input.within(unseen, Dimension.TIME)),
                // A wave is of one shape: where more of it had to be fitted all along the train, all onsets err alike.
                Component.of("shape of the movement", 1, Input.within(onset.model(), Dimension.TIME)));
        Estimate time = Timing.sinceStimulus(onset.seconds(), sight.stimulusBoundUs(), instrument, parts);
        long atUs = window.fromUs() + Math.round(onset.seconds() * 1e6);
        String label = "begins " + sight.words().value(onset.seconds(), Dimension.TIME) + " after the stimulus";
        Mark mark = new Mark(signal.key(), atUs, onset.before(), label);
        return new Told(Optional.of(time), "", List.of(mark), Optional.empty());
    }

    /** Slope of a straight line of the beginnings over the distance; its reciprocal is the speed. */
    Measurement travel(Check.Travel check) {
        Window window = sight.between(0, check.patience());
        String quantity = "speed of the " + verb(check.rising()) + " along the train";
        List<Estimate> times = new ArrayList<>();
        List<Mark> marks = new ArrayList<>();
        for (Signal signal : check.signals()) {
            Told told = told(signal, check.rising(), window);
            if (told.doubt().isPresent()) {
                return told.doubt().get().of(quantity, window);
            }
            if (told.seconds().isEmpty()) {
                return new NeverHappened(told.instead(), Optional.empty(), 0, quantity, told.marks(), window);
            }
            times.add(told.seconds().get());
            marks.addAll(told.marks());
        }
        Estimate slowness = slowness(times, check.spacing());
        if (slowness.value() <= slowness.expanded()) {
            return new Doubt(
                            "the beginnings come no later with the distance, within their doubt: "
                                    + sight.words().estimate(slowness.times(check.spacing(), Dimension.TIME))
                                    + " from vehicle to vehicle",
                            "use quicker streams, or a longer train")
                    .of(quantity, window);
        }
        double speed = 1 / slowness.value();
        Estimate estimate = new Estimate(speed, Dimension.SPEED, Derived.scaled(slowness.components(), -speed * speed));
        Input spacing = Input.within(check.spacingWithin(), Dimension.LENGTH);
        return new Measured(
                estimate.with(Component.of("spacing", speed / check.spacing(), spacing)), quantity, marks, window);
    }

    /**
     * Least-squares slope of times over places that far apart, in s/m. All times weigh alike: were they weighed by
     * their doubt, what is measured would hang on the noise wherever the beginnings are no straight line. What all
     * times owe to one source, such as the stamp of the stimulus, leaves it. Where they scatter about the line by
     * more than they are in doubt, the scatter is added.
     */
    static Estimate slowness(List<Estimate> times, double spacing) {
        int n = times.size();
        double middle = (n - 1) / 2.0;
        double spread = 0;
        double mean = 0;
        double doubt = 0;
        for (int i = 0; i < n; i++) {
            spread += (i - middle) * (i - middle);
            mean += times.get(i).value() / n;
            double standard = times.get(i).standardUncertainty();
            doubt += standard * standard / n;
        }
        Estimate slope = times.get(0).times(0, Dimension.TIME);
        for (int i = 0; i < n; i++) {
            slope = slope.combine(1, (i - middle) / spread, times.get(i));
        }
        double squares = 0;
        for (int i = 0; i < n; i++) {
            double rest = times.get(i).value() - mean - slope.value() * (i - middle);
            squares += rest * rest;
        }
        double more = (squares / (n - 2) - doubt) / spread;
        if (more > 0) {
            slope = slope.with(
                    Component.of("straight line", 1, Input.observed(Math.sqrt(more), Dimension.TIME, n - 2.0)));
        }
        return slope.times(1 / spacing, Dimension.TIME);
    }
}
