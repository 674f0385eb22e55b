package dev.lapwing.measure;

import dev.lapwing.finding.Limit;
import dev.lapwing.finding.Mark;
import dev.lapwing.measure.Measurement.Measured;
import dev.lapwing.plan.Check;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.signal.Extremes;
import dev.lapwing.signal.Luck;
import dev.lapwing.signal.Plateau;
import dev.lapwing.signal.Tip;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Estimate;
import dev.lapwing.uncertainty.Greatest;
import dev.lapwing.uncertainty.Input;
import dev.lapwing.uncertainty.Instrument;
import dev.lapwing.uncertainty.Normal;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;

/** Extremes over a window: of the moving mean, since the greatest of many samples is as much noise as signal. */
final class Stays {
    private static final long ABOUT_US = 1_000_000;
    /** What noise may make of a difference of two differences of samples, in standard deviations of a sample. */
    private static final int CLEAR = 4;
    /** A signal that stands for fewer widths than this about its extreme touches it only ... */
    private static final double TOUCHES = 8;
    /** ... and noise can choose among what lies so near, in µs. */
    private static final long NEAR_US = 200_000;
    /** Of the draws that tell what noise adds: the same samples are to give the same figure. */
    private static final long SEED = 20_260_105;

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
                : sight.unfinished(check.over())
                        .or(() -> sight.doubt(check.signal(), window))
                        .or(() -> Doubt.cutOff(
                                check.signal(), sampled.get(), extremes.get(), check.limit(), sight.words()));
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
     * on average is taken off. Between samples the signal may have gone further: half of the most that it may is added.
     */
    static Estimate extreme(Sampled sampled, Dimension dimension, Extremes extremes, double value, Window window) {
        return extreme(sampled, dimension, extremes, value, window, 0);
    }

    /** The same of what is told of a reading less {@code aside}: what the channel has wrong belongs to the reading. */
    static Estimate extreme(
            Sampled sampled, Dimension dimension, Extremes extremes, double value, Window window, double aside) {
        Instrument instrument = sampled.instrument();
        boolean greatest = value == extremes.greatest();
        Added added = added(sampled, extremes, greatest, window);
        Window about = near(extremes, greatest, window, Watched.WIDTH_US + 2 * sampled.everyUs());
        double tip = Tip.beyond(sampled.trace(), about, greatest, CLEAR * instrument.noise());
        double more = tip / 2 - added.excess;
        String key = Words.span(window);
        Input scatter = Input.stated(added.scatter, dimension);
        Estimate read = Levels.reading(aside + (greatest ? value + more : value - more), instrument, scatter, key)
                .plus(-aside);
        String place = instrument.point() + "/" + key;
        Estimate told = tip == 0
                ? read
                : read.with(Component.of("interpolation/" + place, 1, Input.within(tip / 2, dimension)));
        return added.excess == 0
                ? told
                : told.with(Component.of("selection/" + place, 1, Input.within(added.bound, dimension)));
    }

    /** What noise adds to an extreme, the bound of what that may be wrong by, and how the extreme scatters. */
    private record Added(double excess, double bound, double scatter) {}

    /**
     * Where the signal stands about its extreme noise picks among many means, the more the longer ({@link Plateau}); a
     * third of what it adds is left as a bound. Where the signal only touches it, its shape there says how much.
     */
    private static Added added(Sampled sampled, Extremes extremes, boolean greatest, Window window) {
        double one = sampled.instrument().noise() / Math.sqrt(extremes.averaged());
        double value = greatest ? extremes.greatest() : extremes.least();
        double widths = Plateau.widths(sampled.trace(), window, Watched.WIDTH_US, greatest, value, one);
        if (widths >= TOUCHES) {
            Greatest many = Greatest.ofMovingMeans(widths, extremes.averaged());
            return new Added(many.excess() * one, many.excess() * one / 3, many.scatter() * one);
        }
        Window near = near(extremes, greatest, window, NEAR_US);
        Normal normal = new Normal(new SplittableRandom(SEED));
        Luck luck = Luck.ofExtreme(sampled.trace(), near, greatest, extremes.averaged(), one, normal::next);
        return new Added(luck.excess(), luck.bound(), one);
    }

    /** So far to either side of the extreme, within the window. */
    private static Window near(Extremes extremes, boolean greatest, Window window, long us) {
        long atUs = greatest ? extremes.greatestUs() : extremes.leastUs();
        long fromUs = Math.max(window.fromUs(), atUs - us);
        return new Window(fromUs, Math.max(fromUs, Math.min(window.toUs(), atUs + us)));
    }

    /** Of an extreme of that many means over so many samples each. */
    static double scatter(double noise, double averaged, double means) {
        double independent = Math.max(1, means / averaged);
        return noise / Math.sqrt(averaged) * Math.sqrt(1 + 2 * StrictMath.log(independent) / 3);
    }
}
