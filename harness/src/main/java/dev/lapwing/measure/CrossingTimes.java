package dev.lapwing.measure;

import dev.lapwing.finding.Mark;
import dev.lapwing.measure.Measurement.NeverHappened;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.signal.CrossingSearch;
import dev.lapwing.signal.Extremes;
import dev.lapwing.signal.LevelCrossing;
import dev.lapwing.signal.MovedLevel;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Estimate;
import dev.lapwing.uncertainty.Input;
import dev.lapwing.uncertainty.Instrument;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Times until a sampled signal crosses a level: what is doubtful of the level is doubtful of the time by the slope. */
final class CrossingTimes {
    private final Sight sight;

    CrossingTimes(Sight sight) {
        this.sight = sight;
    }

    Measurement crossing(Check.Crossing check) {
        Window planned = sight.between(0, check.patience());
        String quantity = "time for " + check.signal().spoken()
                + (check.rising() ? " to rise above " : " to fall below ")
                + sight.words().value(check.level(), check.signal().dimension());
        Optional<Sampled> sampled = sight.recording().sampled(check.signal());
        if (sampled.isEmpty()) {
            return sight.doubt(check.signal(), planned).orElseThrow().of(quantity, planned);
        }
        CrossingSearch search = Channels.search(sampled.get(), check, 0, planned);
        return switch (search.advance(sight.seen().closedUs(), true)) {
            case FOUND -> found(check, sampled.get(), search.found().orElseThrow(), quantity, planned);
            case BEYOND_BEFORE -> beyondBefore(check, quantity, planned);
            case HOVERED ->
                new Doubt(
                                check.signal().spoken() + " hung about the level and told no time",
                                "choose a level on a steeper part of the curve")
                        .of(quantity, planned);
            case NEVER, LOOKING -> never(check, sampled.get(), quantity, planned);
        };
    }

    private Measurement beyondBefore(Check.Crossing check, String quantity, Window planned) {
        String side = check.rising() ? "above" : "below";
        return sight.doubt(check.signal(), planned)
                .orElseGet(() -> new Doubt(
                        check.signal().spoken() + " was " + side + " "
                                + sight.words()
                                        .value(check.level(), check.signal().dimension())
                                + " already before the stimulus",
                        "let it start from the other side"))
                .of(quantity, planned);
    }

    private Measurement found(
            Check.Crossing check, Sampled sampled, LevelCrossing at, String quantity, Window planned) {
        long atUs = sight.originUs() + Math.round(at.seconds() * 1e6);
        Window window = new Window(
                Math.min(sight.originUs(), at.region().fromUs()),
                Math.max(atUs, at.region().toUs()));
        Optional<Doubt> doubt = sight.doubt(check.signal(), window);
        if (doubt.isPresent()) {
            return doubt.get().of(quantity, window);
        }
        MovedLevel moved = Channels.moved(
                sampled, check.level(), check.rising(), planned, sight.seen().closedUs(), at);
        Crossed time = crossed(check.signal(), sampled, at, moved, List.of(), sight.stimulusBoundUs());
        Mark mark = new Mark(
                check.signal().key(),
                atUs,
                check.level(),
                sight.words().value(at.seconds(), Dimension.TIME) + " after the stimulus");
        return new CrossedTime(sight.seen().id(), check.limit(), quantity, check.signal(), sampled, window)
                .of(time, List.of(mark));
    }

    /**
     * Time from the stimulus to a crossing.
     *
     * @param level           what is doubtful of the level itself, in the signal's unit
     * @param stimulusBoundUs bound of the stimulus's own stamp, in µs
     */
    static Crossed crossed(
            Signal signal,
            Sampled sampled,
            LevelCrossing at,
            MovedLevel moved,
            List<Component> level,
            long stimulusBoundUs) {
        Instrument instrument = sampled.instrument();
        List<Component> shift = new ArrayList<>(ofReading(moved.level(), instrument, signal.dimension()));
        shift.addAll(Derived.scaled(level, -1));
        List<Component> noise = timeDoubt(instrument, at);
        List<Component> parts = new ArrayList<>(Derived.scaled(shift, -1 / at.slope()));
        parts.addAll(noise);
        Estimate linear = Timing.sinceStimulus(at.seconds(), stimulusBoundUs, instrument, parts);
        Crossed.Part part = new Crossed.Part(
                1, moved, shift, noise.get(0).source(), noise.get(1).source());
        return new Crossed(linear, List.of(part));
    }

    /** A reading too high by e meets a level e / slope too early. */
    static List<Component> levelDoubt(double level, Instrument instrument, Dimension of, double slope) {
        return Derived.scaled(ofReading(level, instrument, of), -1 / slope);
    }

    /** Standard uncertainty of one reading but for its noise, the signal's unit; at every level the same. */
    static double doubt(Instrument instrument, Signal signal) {
        return new Estimate(0, signal.dimension(), ofReading(0, instrument, signal.dimension())).standardUncertainty();
    }

    private static List<Component> ofReading(double level, Instrument instrument, Dimension of) {
        List<Component> parts = new ArrayList<>(Systematic.at(level, instrument, of));
        parts.add(Component.of("resolution/" + instrument.point(), 1, Input.within(instrument.resolution() / 2, of)));
        return parts;
    }

    /** What the samples about a crossing leave open of its time. */
    static List<Component> timeDoubt(Instrument instrument, LevelCrossing at) {
        String key = instrument.point() + "/" + Words.span(at.region());
        Input noise = at.freedom().isPresent()
                ? Input.observed(at.fromNoise(), Dimension.TIME, at.freedom().getAsDouble())
                : Input.stated(at.fromNoise(), Dimension.TIME);
        return List.of(
                Component.of("noise/" + key, 1, noise),
                Component.of("interpolation/" + key, 1, Input.within(at.curvature(), Dimension.TIME)));
    }

    private Measurement never(Check.Crossing check, Sampled sampled, String quantity, Window planned) {
        Optional<Doubt> doubt = sight.cutShort(planned.toUs())
                .or(() -> sight.doubt(check.signal(), planned))
                .or(() -> Doubt.beyond(check.signal(), check.level(), sight.recording(), planned, sight.words()));
        if (doubt.isPresent()) {
            return doubt.get().of(quantity, planned);
        }
        Extremes extremes =
                Extremes.of(sampled.trace(), planned, Watched.WIDTH_US).orElseThrow();
        double furthest = check.rising() ? extremes.greatest() : extremes.least();
        long atUs = check.rising() ? extremes.greatestUs() : extremes.leastUs();
        Estimate reached = Stays.extreme(sampled, check.signal().dimension(), extremes, furthest, planned);
        String clause = check.signal().spoken()
                + (check.rising() ? " did not rise above " : " did not fall below ")
                + sight.words().value(check.level(), check.signal().dimension()) + " within "
                + sight.words().value(check.patience(), Dimension.TIME) + "; it reached "
                + sight.words().estimate(reached);
        Mark mark = new Mark(check.signal().key(), atUs, furthest, check.rising() ? "highest" : "lowest");
        double shortBy = check.rising() ? check.level() - reached.value() : reached.value() - check.level();
        return new NeverHappened(clause, Optional.of(reached), shortBy, quantity, List.of(mark), planned);
    }
}
