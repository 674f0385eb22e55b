package dev.lapwing.measure;

import dev.lapwing.finding.Mark;
import dev.lapwing.measure.Measurement.Measured;
import dev.lapwing.measure.Measurement.NeverHappened;
import dev.lapwing.plan.Check;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.signal.CrossingSearch;
import dev.lapwing.signal.Extremes;
import dev.lapwing.signal.LevelCrossing;
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
        CrossingSearch search = Channels.search(sampled.get(), check, planned);
        return switch (search.advance(sight.seen().closedUs(), true)) {
            case FOUND -> found(check, sampled.get(), search.found().orElseThrow(), quantity);
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

    private Measurement found(Check.Crossing check, Sampled sampled, LevelCrossing at, String quantity) {
        long atUs = sight.originUs() + Math.round(at.seconds() * 1e6);
        Window window = new Window(
                Math.min(sight.originUs(), at.region().fromUs()),
                Math.max(atUs, at.region().toUs()));
        Optional<Doubt> doubt = sight.doubt(check.signal(), window);
        if (doubt.isPresent()) {
            return doubt.get().of(quantity, window);
        }
        Instrument instrument = sampled.instrument();
        List<Component> parts = levelDoubt(instrument, check.signal().dimension(), at.slope());
        parts.addAll(timeDoubt(instrument, at));
        Estimate time = Timing.sinceStimulus(at.seconds(), sight.stimulusBoundUs(), instrument, parts);
        Mark mark = new Mark(
                check.signal().key(),
                atUs,
                check.level(),
                sight.words().value(at.seconds(), time.dimension()) + " after the stimulus");
        return new Measured(time, quantity, List.of(mark), window);
    }

    /** A reading too high by e meets a level e / slope too early. */
    static List<Component> levelDoubt(Instrument instrument, Dimension of, double slope) {
        List<Component> parts = new ArrayList<>();
        String point = instrument.point();
        parts.add(Component.of("calibration/" + point, -1 / slope, Input.stated(instrument.calibration(), of)));
        parts.add(Component.of("drift/" + point, -1 / slope, Input.stated(instrument.drift(), of)));
        parts.add(Component.of("resolution/" + point, -1 / slope, Input.within(instrument.resolution() / 2, of)));
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
        Optional<Doubt> doubt = sight.cutShort(planned.toUs()).or(() -> sight.doubt(check.signal(), planned));
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
