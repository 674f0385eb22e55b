package dev.lapwing.measure;

import dev.lapwing.finding.Mark;
import dev.lapwing.measure.Measurement.Measured;
import dev.lapwing.plan.Check;
import dev.lapwing.quantity.Dimension;
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
 * Rates of fall by a straight line. What a transducer's error is alike in every sample leaves the slope; what is left
 * is what of it goes along the range, and the scatter about the line, widened where neighbouring residuals are alike,
 * as they are when the fall is no straight line.
 */
final class Slopes {
    private static final int SAMPLES_LEAST = 10;

    private final Sight sight;

    Slopes(Sight sight) {
        this.sight = sight;
    }

    Measurement leak(Check.Leak check) {
        Window window = sight.between(check.settled(), check.settled() + check.over());
        // By the minute or by the second as its limit, or the fall over the whole time.
        Dimension asked = check.limit().dimension();
        boolean rate = asked != check.signal().dimension();
        String quantity = (rate ? "rate of fall of " : "fall of ")
                + check.signal().spoken() + " over " + sight.words().value(check.over(), Dimension.TIME);
        Optional<Doubt> doubt = sight.cutShort(window.toUs()).or(() -> sight.doubt(check.signal(), window));
        if (doubt.isPresent()) {
            return doubt.get().of(quantity, window);
        }
        Sampled sampled = sight.recording().sampled(check.signal()).orElseThrow();
        Optional<StraightLine> line =
                StraightLine.of(sampled.trace(), window, window.fromUs()).filter(fit -> fit.samples() >= SAMPLES_LEAST);
        if (line.isEmpty()) {
            return new Doubt("fewer than " + SAMPLES_LEAST + " samples say nothing of a leak", "use a quicker stream")
                    .of(quantity, window);
        }
        Estimate perSecond = rateOfFall(line.get(), sampled.instrument(), window);
        Estimate fall = perSecond.times(rate ? 1 : check.over(), asked);
        return new Measured(fall, quantity, marks(check, line.get(), window), window);
    }

    /** Positive falling, in the signal's unit per s. */
    static Estimate rateOfFall(StraightLine line, Instrument instrument, Window window) {
        String key = instrument.point() + "/" + Words.span(window);
        double seen = line.slopeStandard() * line.inflation();
        double claimed = Channels.sampleNoise(instrument) / Math.sqrt(line.spread());
        Input scatter = seen > claimed
                ? Input.observed(seen, Dimension.LEAK_RATE, line.degreesOfFreedom())
                : Input.stated(claimed, Dimension.LEAK_RATE);
        double dither = Channels.dither(instrument, line.residual());
        Input count = Rounding.input(instrument.resolution(), dither, Dimension.PRESSURE);
        List<Component> parts = new ArrayList<>();
        parts.add(Component.of("noise/" + key, 1, scatter));
        parts.add(Component.of("resolution/" + key, Math.sqrt(2) / window.seconds(), count));
        // A clock that runs fast makes a fall look slow.
        parts.add(Component.of(
                "clock/" + instrument.clock(),
                line.slope(),
                Input.within(instrument.clockRateBound(), Dimension.CLOCK_RATE)));
        List<Component> fall = Systematic.change(line.at(window.seconds()), line.at(0), instrument, Dimension.PRESSURE);
        parts.addAll(Derived.scaled(fall, 1 / window.seconds()));
        return new Estimate(-line.slope(), Dimension.LEAK_RATE, parts);
    }

    private static List<Mark> marks(Check.Leak check, StraightLine line, Window window) {
        String key = check.signal().key();
        return List.of(
                new Mark(key, window.fromUs(), line.at(0), "start of the fitted line"),
                new Mark(key, window.toUs(), line.at(window.seconds()), "end of the fitted line"));
    }
}
