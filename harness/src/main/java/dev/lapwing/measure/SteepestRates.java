package dev.lapwing.measure;

import dev.lapwing.finding.Mark;
import dev.lapwing.measure.Measurement.Measured;
import dev.lapwing.plan.Check;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.signal.SteepestSlope;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Estimate;
import dev.lapwing.uncertainty.Input;
import dev.lapwing.uncertainty.Instrument;
import dev.lapwing.uncertainty.Normal;
import dev.lapwing.uncertainty.Rounding;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;

/**
 * Greatest rates over a stated width. What a transducer's error is alike at every level leaves them.
 */
final class SteepestRates {
    /** Of the draws that tell what noise adds: the same samples are to give the same figure. */
    private static final long SEED = 20_260_105;

    private final Sight sight;

    SteepestRates(Sight sight) {
        this.sight = sight;
    }

    Measurement steepest(Check.SteepestRate check) {
        Window window = sight.between(0, check.over());
        String quantity = "greatest rate of " + (check.rising() ? "rise" : "fall") + " of "
                + check.signal().spoken() + " over " + sight.words().value(check.width(), Dimension.TIME);
        Optional<Doubt> doubt = sight.cutShort(window.toUs()).or(() -> sight.doubt(check.signal(), window));
        if (doubt.isPresent()) {
            return doubt.get().of(quantity, window);
        }
        Sampled sampled = sight.recording().sampled(check.signal()).orElseThrow();
        Instrument instrument = sampled.instrument();
        long widthUs = Math.round(check.width() * 1e6);
        Optional<SteepestSlope> found = SteepestSlope.of(
                sampled.trace(),
                check.rising(),
                window,
                widthUs,
                Channels.sampleNoise(instrument),
                new Normal(new SplittableRandom(SEED))::next);
        if (found.isEmpty()) {
            return new Doubt(
                            "a third of the width holds fewer than five samples of "
                                    + check.signal().spoken(),
                            "use a quicker stream or a wider width")
                    .of(quantity, window);
        }
        SteepestSlope steepest = found.get();
        Estimate rate = estimate(steepest, instrument).times(1, check.limit().dimension());
        Optional<Doubt> cutOff =
                check.limit().upper().isEmpty() || check.limit().excludes(rate)
                        ? Optional.empty()
                        : Doubt.cutOff(check.signal(), sampled, window, SteepestSlope.spikeUs(widthUs), sight.words());
        if (cutOff.isPresent()) {
            return cutOff.get().of(quantity, window);
        }
        return new Measured(rate, quantity, marks(check, steepest), window);
    }

    private static Estimate estimate(SteepestSlope steepest, Instrument instrument) {
        String key = instrument.point() + "/" + Words.span(steepest.region());
        double third = steepest.region().seconds() / 3;
        // What moves is carried over the edges between counts by its own movement, evenly spread over a third.
        double dither = StrictMath.hypot(instrument.noise(), Estimate.rectangular(steepest.slope() * third / 2));
        Input count = Rounding.input(instrument.resolution(), dither, Dimension.PRESSURE);
        List<Component> parts = new ArrayList<>();
        parts.add(Component.of("selection/" + key, 1, Input.within(steepest.luck(), Dimension.PRESSURE_RATE)));
        parts.add(Component.of("interpolation/" + key, 1, Input.within(steepest.bend(), Dimension.PRESSURE_RATE)));
        parts.add(Component.of("noise/" + key, 1, Input.stated(steepest.fromNoise(), Dimension.PRESSURE_RATE)));
        parts.add(Component.of("resolution/" + key, Math.sqrt(2) / (2 * third), count));
        // A clock that runs fast makes a fall look slow.
        parts.add(Component.of(
                "clock/" + instrument.clock(),
                -steepest.slope(),
                Input.within(instrument.clockRateBound(), Dimension.CLOCK_RATE)));
        int sign = steepest.last() < steepest.first() ? -1 : 1;
        List<Component> change = Systematic.change(steepest.first(), steepest.last(), instrument, Dimension.PRESSURE);
        parts.addAll(Derived.scaled(change, sign / (2 * third)));
        return new Estimate(steepest.slope(), Dimension.PRESSURE_RATE, parts);
    }

    private List<Mark> marks(Check.SteepestRate check, SteepestSlope steepest) {
        String key = check.signal().key();
        long sixthUs = (steepest.region().toUs() - steepest.region().fromUs()) / 6;
        return List.of(
                new Mark(key, steepest.region().fromUs() + sixthUs, steepest.first(), "steepest from here"),
                new Mark(key, steepest.region().toUs() - sixthUs, steepest.last(), "to here"));
    }
}
