package dev.lapwing.measure;

import dev.lapwing.finding.Limit;
import dev.lapwing.finding.Mark;
import dev.lapwing.measure.Measurement.Measured;
import dev.lapwing.plan.Check;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.signal.Extremes;
import dev.lapwing.signal.Plateau;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Estimate;
import dev.lapwing.uncertainty.Greatest;
import dev.lapwing.uncertainty.Input;
import dev.lapwing.uncertainty.Instrument;
import java.util.List;
import java.util.Optional;

/** Extremes over a window: of the moving mean, since the greatest of many samples is as much noise as signal. */
final class Stays {
    private static final long ABOUT_US = 1_000_000;

    private final Sight sight;

    Stays(Sight sight) {
        this.sight = sight;
    }

    Measurement stays(Check.Stays check) {
        Window window = sight.over(check.over());
        String quantity = "extreme of " + check.signal().spoken();
        Optional<Sampled> sampled = sight.recording().sampled(check.signal());
        Window looked = sight.watched(window);
        Optional<Extremes> extremes = sampled.flatMap(s -> Extremes.of(s.trace(), looked, Watched.WIDTH_US));
        if (extremes.isEmpty()) {
            return sight.doubt(check.signal(), window)
                    .orElseGet(() -> new Doubt(
                            "there are no samples of " + check.signal().spoken(), "run it again"))
                    .of(quantity, window);
        }
        Measured measured = nearest(check, sampled.get(), extremes.get(), looked);
        boolean outside = check.limit().margin(measured.estimate().value())
                < -measured.estimate().expanded();
        // What was outside already stays outside, whatever was not seen; but not by the word of a dead transducer.
        Optional<Doubt> doubt = outside
                ? Doubt.transducer(
                        check.signal(),
                        sampled.get(),
                        about(measured.marks().get(0).timeUs()),
                        sight.words())
                : sight.unfinished(check.over()).or(() -> sight.doubt(check.signal(), window));
        return doubt.<Measurement>map(d -> d.of(quantity, window)).orElse(measured);
    }

    /** What is looked at of a transducer that says that something was outside. */
    static Window about(long atUs) {
        return new Window(atUs - ABOUT_US, atUs + ABOUT_US);
    }

    private Measured nearest(Check.Stays check, Sampled sampled, Extremes extremes, Window window) {
        Limit limit = check.limit();
        boolean high = limit.margin(extremes.greatest()) <= limit.margin(extremes.least());
        double value = high ? extremes.greatest() : extremes.least();
        Estimate estimate = extreme(sampled, check.signal().dimension(), extremes, value, window);
        Mark mark = new Mark(
                check.signal().key(),
                high ? extremes.greatestUs() : extremes.leastUs(),
                value,
                (high ? "highest " : "lowest ")
                        + sight.words().value(value, check.signal().dimension()));
        String quantity = (high ? "highest " : "lowest ") + check.signal().spoken();
        return new Measured(estimate, quantity, List.of(mark), window);
    }

    /**
     * An extreme of moving means. Noise makes the greatest of many means greater than the signal ever was: by how much
     * on average is taken off, which depends on how long the signal stood about its extreme ({@link Plateau}); a third
     * of that is left as a bound of what this may be wrong by.
     */
    static Estimate extreme(Sampled sampled, Dimension dimension, Extremes extremes, double value, Window window) {
        Instrument instrument = sampled.instrument();
        double one = instrument.noise() / Math.sqrt(extremes.averaged());
        boolean greatest = value == extremes.greatest();
        double widths = Plateau.widths(sampled.trace(), window, Watched.WIDTH_US, greatest, value, one);
        Greatest luck = Greatest.ofMovingMeans(widths, extremes.averaged());
        double excess = luck.excess() * one;
        Input scatter = Input.stated(luck.scatter() * one, dimension);
        String key = Words.span(window);
        Estimate read = Levels.reading(value - (greatest ? excess : -excess), instrument, scatter, key);
        return excess == 0
                ? read
                : read.with(Component.of(
                        "selection/" + instrument.point() + "/" + key, 1, Input.within(excess / 3, dimension)));
    }

    /** Of an extreme of that many means over so many samples each. */
    static double scatter(double noise, double averaged, double means) {
        double independent = Math.max(1, means / averaged);
        return noise / Math.sqrt(averaged) * Math.sqrt(1 + 2 * StrictMath.log(independent) / 3);
    }
}
