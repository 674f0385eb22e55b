package dev.lapwing.measure;

import dev.lapwing.finding.Mark;
import dev.lapwing.measure.Measurement.Measured;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.signal.Average;
import dev.lapwing.signal.StraightLine;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Estimate;
import dev.lapwing.uncertainty.Input;
import dev.lapwing.uncertainty.Instrument;
import dev.lapwing.uncertainty.Rounding;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Mean levels and their differences. What calibration and drift leave in a transducer belongs to all its readings: in a
 * mean it stays whole, between two transducers both enter, and between two of its own levels it cancels but for what
 * goes along the range; see {@link Systematic}.
 */
final class Levels {
    /** A slope of so many of its standard deviations is told apart from noise. */
    private static final int CLEAR = 4;

    private final Sight sight;

    Levels(Sight sight) {
        this.sight = sight;
    }

    Measurement settled(Check.SettledLevel check) {
        Window window = sight.between(check.settled(), check.settled() + check.over());
        String quantity = "level of " + check.signal().spoken();
        String whole = check.target() == 0
                ? quantity
                : quantity + " minus "
                        + sight.words().value(check.target(), check.signal().dimension());
        return sight.cutShort(window.toUs())
                .or(() -> sight.doubt(check.signal(), window))
                .<Measurement>map(doubt -> doubt.of(whole, window))
                .orElseGet(() -> {
                    Estimate level = level(check.signal(), window);
                    Estimate off = level.plus(-check.target());
                    return new Measured(off, whole, List.of(mark(check.signal(), window, level)), window);
                });
    }

    Measurement agreement(Check.Agreement check) {
        Window window = sight.between(check.settled(), check.settled() + check.over());
        String quantity = check.signal().spoken() + " minus " + check.with().spoken();
        return difference(new At(check.signal(), window), new At(check.with(), window), quantity);
    }

    Measurement movement(Check.Movement check) {
        Window before = new Window(
                sight.after(-check.before()),
                Math.max(sight.after(-check.before()), sight.originUs() - 1 - sight.stimulusBoundUs()));
        Window after = sight.between(check.settled(), check.settled() + check.over());
        String quantity = "change of " + check.signal().spoken() + " after the stimulus";
        return difference(new At(check.signal(), after), new At(check.signal(), before), quantity);
    }

    Measurement change(Check.Change check) {
        Window early = sight.between(check.from(), check.from() + check.over());
        Window late = sight.between(check.to(), check.to() + check.over());
        String quantity = "change of " + check.signal().spoken() + " from "
                + sight.words().value(check.from(), Dimension.TIME) + " to "
                + sight.words().value(check.to(), Dimension.TIME);
        return difference(new At(check.signal(), late), new At(check.signal(), early), quantity);
    }

    Measurement repeat(Check.Repeat check) {
        Window window = sight.between(check.settled(), check.settled() + check.over());
        String quantity = check.signal().spoken() + " minus '" + check.remembered() + "'";
        Remembered before = sight.remembered().get(check.remembered());
        if (before == null) {
            return Remembered.missing(check.remembered()).of(quantity, window);
        }
        return sight.cutShort(window.toUs())
                .or(() -> sight.doubt(check.signal(), window))
                .<Measurement>map(doubt -> doubt.of(quantity, window))
                .orElseGet(() -> {
                    Estimate level = level(check.signal(), window);
                    return new Measured(
                            level.minus(before.level()),
                            quantity,
                            List.of(mark(check.signal(), window, level)),
                            window);
                });
    }

    /** A signal over a window. */
    private record At(Signal signal, Window window) {}

    private Measurement difference(At one, At other, String quantity) {
        Window whole = new Window(
                Math.min(one.window.fromUs(), other.window.fromUs()), Math.max(one.window.toUs(), other.window.toUs()));
        return sight.cutShort(whole.toUs())
                .or(() -> sight.doubt(one.signal, one.window))
                .or(() -> sight.doubt(other.signal, other.window))
                .<Measurement>map(doubt -> doubt.of(quantity, whole))
                .orElseGet(() -> {
                    Estimate a = level(one.signal, one.window);
                    Estimate b = level(other.signal, other.window);
                    List<Mark> marks = List.of(mark(one.signal, one.window, a), mark(other.signal, other.window, b));
                    return new Measured(a.minus(b), quantity, marks, whole);
                });
    }

    private Estimate level(Signal signal, Window window) {
        Sampled sampled = sight.recording().sampled(signal).orElseThrow();
        Estimate level = level(sampled, signal.dimension(), window);
        Window wide = new Window(window.fromUs() - sampled.everyUs(), window.toUs() + sampled.everyUs());
        return StraightLine.of(sampled.trace(), wide, window.fromUs())
                .filter(line -> Math.abs(line.slope()) > CLEAR * line.slopeStandard() * line.inflation())
                .map(line -> moving(level, sampled, line.slope(), signal.dimension()))
                .orElse(level);
    }

    /**
     * Of a signal that moves while it is averaged, whatever is doubtful of the window's time is doubtful of the mean.
     */
    private Estimate moving(Estimate level, Sampled sampled, double slope, Dimension dimension) {
        Instrument instrument = sampled.instrument();
        // The samples lie in the window by chance, half an interval further to one side or the other at the most.
        double aside = sampled.everyUs() * 0.5e-6 * Math.abs(slope);
        Estimate moving = level;
        for (Component part : Timing.instant(instrument, -slope)) {
            moving = moving.with(part);
        }
        return moving.with(Timing.stimulus(sight.stimulusBoundUs(), slope))
                .with(Component.of("sample interval/" + instrument.point(), 1, Input.within(aside, dimension)));
    }

    /** Mean level over a window that holds samples. */
    static Estimate level(Sampled sampled, Dimension dimension, Window window) {
        Instrument instrument = sampled.instrument();
        Optional<Average> average = Average.of(sampled.trace(), window);
        Average mean = average.orElseThrow();
        double claimed = Channels.sampleNoise(instrument) / Math.sqrt(mean.effectiveSamples());
        Input scatter = mean.standardError() > claimed
                ? Input.observed(mean.standardError(), dimension, mean.degreesOfFreedom())
                : Input.stated(claimed, dimension);
        double dither = Channels.dither(instrument, mean.deviation());
        Input rounding = Rounding.input(instrument.resolution(), dither, dimension);
        return reading(mean.mean(), instrument, scatter, rounding, Words.span(window));
    }

    /** A reading with what its channel may have wrong, and its own scatter under a key of its own. */
    static Estimate reading(double value, Instrument instrument, Input scatter, String key) {
        return reading(value, instrument, scatter, Input.within(instrument.resolution() / 2, scatter.dimension()), key);
    }

    private static Estimate reading(double value, Instrument instrument, Input scatter, Input rounding, String key) {
        String point = instrument.point();
        Dimension dimension = scatter.dimension();
        List<Component> parts = new ArrayList<>(Systematic.at(value, instrument, dimension));
        parts.add(Component.of("noise/" + point + "/" + key, 1, scatter));
        parts.add(Component.of("resolution/" + point + "/" + key, 1, rounding));
        return new Estimate(value, dimension, parts);
    }

    private Mark mark(Signal signal, Window window, Estimate level) {
        return new Mark(
                signal.key(),
                (window.fromUs() + window.toUs()) / 2,
                level.value(),
                "mean " + sight.words().value(level.value(), level.dimension()));
    }
}
