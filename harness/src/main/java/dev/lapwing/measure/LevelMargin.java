package dev.lapwing.measure;

import dev.lapwing.finding.Mark;
import dev.lapwing.measure.Measurement.Measured;
import dev.lapwing.measure.Measurement.NeverHappened;
import dev.lapwing.naming.Signal;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.signal.Extremes;
import dev.lapwing.signal.Robustness;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Estimate;
import dev.lapwing.uncertainty.Input;
import dev.lapwing.uncertainty.Instrument;
import java.util.List;
import java.util.Optional;

/**
 * The margin of a condition in the unit of its levels: its robustness. One reading decides it, so the doubt of that
 * transducer is the doubt of the margin, and what stamps and stimulus leave open of the bounds comes to what the margin
 * changes by when they are shifted.
 */
final class LevelMargin {
    /** A reading that is the highest or lowest so far to either side, in µs, was chosen for it. */
    private static final long ABOUT_US = 200_000;
    /** Of a reading that was added to and taken from. */
    private static final double ROUNDING = 1e-12;

    private final Sight sight;
    private final Temporal.Asked asked;
    private final Atoms atoms;
    private final Window looked;

    LevelMargin(Sight sight, Temporal.Asked asked) {
        this.sight = sight;
        this.asked = asked;
        this.atoms = asked.atoms();
        this.looked = asked.looked();
    }

    /** The margin, the reading that decides it, and the last one that was needed to know it. */
    private record Found(double value, int atom, long atUs, boolean turned, long knownUs) {
        /** All that may be looked at: what comes after it was known must not change it. */
        Window upTo(long fromUs) {
            return new Window(fromUs, Math.max(fromUs, knownUs + Watched.WIDTH_US / 2));
        }
    }

    Measurement measured() {
        Unseen unseen = Unseen.in(looked, asked.check().signals(), sight.recording());
        Optional<Found> found = find(unseen, Side.AS_BEFORE, 0);
        if (found.isEmpty()) {
            return sight.cutShort(asked.endUs())
                    .or(() -> sight.doubt(asked.check().signals(), looked))
                    .orElseGet(() -> new Doubt("the samples ended before it could be told", "run it again"))
                    .of("margin", looked);
        }
        Found margin = found.get();
        Optional<Doubt> doubt = asked.unfinished().or(() -> unseen(unseen, margin));
        if (Double.isInfinite(margin.value)) {
            return byWires(margin, doubt);
        }
        Estimate estimate = estimate(margin);
        double least = asked.check().limit().lower().orElse(0) - estimate.expanded();
        Optional<Doubt> cutOff = cutOff(margin, least);
        boolean outside = best(unseen, margin) < least && cutOff.isEmpty();
        Optional<Doubt> against = (outside ? Optional.<Doubt>empty() : doubt)
                .or(() -> Temporal.transducers(sight, List.of(atoms.signal(margin.atom)), Stays.about(margin.atUs)))
                .or(() -> outside
                        ? Optional.empty()
                        : Temporal.transducers(sight, asked.check().signals(), looked))
                .or(() -> cutOff);
        return against.<Measurement>map(d -> d.of("margin", looked))
                .orElseGet(() -> new Measured(estimate, quantity(margin), List.of(mark(margin)), looked));
    }

    /** Whether what lies beyond the end of a range might change what is told: the margin, or that it fails. */
    private Optional<Doubt> cutOff(Found margin, double least) {
        for (Signal signal : asked.check().signals()) {
            Optional<Unseen> ends = Unseen.atEnds(signal, looked, sight.recording())
                    .filter(beyond -> margin.value < least
                            ? best(beyond, margin) >= least
                            : !worst(beyond).equals(Optional.of(margin.value)));
            if (ends.isPresent()) {
                Sampled sampled = sight.recording().sampled(signal).orElseThrow();
                double end = ends.get().above().isEmpty() ? sampled.least() : sampled.greatest();
                return Optional.of(Doubt.atEnd(signal, end, sight.words()));
            }
        }
        return Optional.empty();
    }

    private Optional<Double> worst(Unseen unseen) {
        return find(unseen, Side.WORST, 0).map(Found::value);
    }

    private Optional<Found> find(Unseen unseen, Side side, long shiftUs) {
        Robustness robustness = new Robustness(atoms.formula());
        Readings readings = new Readings(atoms, sight.recording(), unseen, side, looked.fromUs() + shiftUs);
        while (!robustness.known() && readings.advance(looked.toUs() + shiftUs, true)) {
            robustness.sample(readings.timeUs(), readings.values());
        }
        return robustness.known()
                ? Optional.of(new Found(
                        robustness.value(),
                        robustness.atom(),
                        robustness.decidedUs(),
                        robustness.turned(),
                        readings.timeUs()))
                : Optional.empty();
    }

    /** Why what was not seen leaves it open, if it does. */
    private Optional<Doubt> unseen(Unseen unseen, Found margin) {
        if (unseen.nothing()) {
            return Optional.empty();
        }
        boolean same = worst(unseen).equals(Optional.of(margin.value)) && best(unseen, margin) == margin.value;
        return same
                ? Optional.empty()
                : Optional.of(sight.doubt(asked.check().signals(), looked)
                        .orElseGet(() -> new Doubt("not all of it was seen", "look at the bench's stream")));
    }

    private double best(Unseen unseen, Found margin) {
        return unseen.nothing()
                ? margin.value
                : find(unseen, Side.BEST, 0).map(Found::value).orElse(Double.POSITIVE_INFINITY);
    }

    /** Wires alone make it false, or leave no level to be asked. */
    private Measurement byWires(Found margin, Optional<Doubt> doubt) {
        if (doubt.isPresent()) {
            return doubt.get().of("margin", looked);
        }
        if (margin.value > 0) {
            return new Doubt(
                            "its wires alone made it true, so that no level was asked",
                            "let the steps bring about what it speaks of, or state its margin in time")
                    .of("margin", looked);
        }
        String wire = atoms.signal(margin.atom).spoken();
        Mark mark = new Mark(atoms.signal(margin.atom).key(), margin.atUs, 0, "decides");
        return new NeverHappened(
                "the condition does not hold, whatever its levels: " + wire + " decides it",
                Optional.empty(),
                0,
                "margin",
                List.of(mark),
                looked);
    }

    private Estimate estimate(Found margin) {
        Signal signal = atoms.signal(margin.atom);
        Sampled sampled = sight.recording().sampled(signal).orElseThrow();
        double slope = slope(margin, sampled);
        Optional<Extremes> chosen = chosen(margin, sampled);
        Estimate reading = chosen.map(extremes -> Stays.extreme(
                        sampled, signal.dimension(), extremes, value(margin, extremes), margin.upTo(looked.fromUs())))
                .orElseGet(() -> held(margin, sampled, slope));
        Estimate estimate = reading.plus(-atoms.level(margin.atom))
                .times(sense(margin), signal.dimension())
                .with(Timing.stimulus(sight.stimulusBoundUs(), slope));
        for (Component part : Timing.instant(sampled.instrument(), -slope)) {
            estimate = estimate.with(part);
        }
        return estimate;
    }

    /** Where the reading that decides it is the highest or lowest far about: noise has chosen it among others. */
    private Optional<Extremes> chosen(Found margin, Sampled sampled) {
        long surelyUs = margin.knownUs - Math.max(Watched.WIDTH_US, 2 * sampled.everyUs());
        if (margin.atUs > surelyUs) {
            return Optional.empty();
        }
        Window about = new Window(
                margin.atUs - ABOUT_US,
                Math.min(margin.atUs + ABOUT_US, margin.upTo(looked.fromUs()).toUs()));
        return Extremes.of(sampled.trace(), about, Watched.WIDTH_US)
                .filter(extremes -> same(extremes.greatest(), level(margin)) || same(extremes.least(), level(margin)));
    }

    private double value(Found margin, Extremes extremes) {
        return same(extremes.greatest(), level(margin)) ? extremes.greatest() : extremes.least();
    }

    private static boolean same(double one, double other) {
        return Math.abs(one - other) <= ROUNDING * Math.max(Math.abs(one), Math.abs(other));
    }

    /** A reading that a bound chose: it holds until the next, and the bound may lie anywhere between. */
    private Estimate held(Found margin, Sampled sampled, double slope) {
        Dimension dimension = atoms.signal(margin.atom).dimension();
        Instrument instrument = sampled.instrument();
        double averaged = Math.max(1, (double) Watched.WIDTH_US / Math.max(1, sampled.everyUs()));
        Input noise = Input.stated(instrument.noise() / Math.sqrt(averaged), dimension);
        double half = slope * sampled.everyUs() * 0.5e-6;
        return Levels.reading(level(margin) + sense(margin) * half, instrument, noise, Words.span(looked))
                .with(Component.of(
                        "sample interval/" + instrument.point(), 1, Input.within(Math.abs(half), dimension)));
    }

    /** The reading that decides it. */
    private double level(Found margin) {
        return atoms.level(margin.atom) + sense(margin) * margin.value;
    }

    /** 1 where a higher reading makes the margin greater, -1 where it makes it less. */
    private int sense(Found margin) {
        return atoms.sense(margin.atom) * (margin.turned ? -1 : 1);
    }

    /** By how much the margin changes when its bounds are shifted, in the level's unit for each second. */
    private double slope(Found margin, Sampled sampled) {
        long doubtUs = sampled.instrument().instantBoundUs() + sight.stimulusBoundUs();
        long byUs = Math.max(Watched.WIDTH_US, Math.max(sampled.everyUs(), doubtUs));
        // Only earlier: what comes after the bounds may not have come yet.
        double change = margin.value
                - find(Unseen.NOTHING, Side.AS_BEFORE, -byUs).map(Found::value).orElse(margin.value);
        return Double.isFinite(change) ? change / (1e-6 * byUs) : 0;
    }

    private String quantity(Found margin) {
        return "margin, decided by " + atoms.signal(margin.atom).spoken() + " at "
                + sight.words().time(margin.atUs - sight.originUs());
    }

    private Mark mark(Found margin) {
        double level = level(margin);
        Signal signal = atoms.signal(margin.atom);
        return new Mark(
                signal.key(), margin.atUs, level, "decides, " + sight.words().value(level, signal.dimension()));
    }
}
