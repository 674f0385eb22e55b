package dev.lapwing.signal;

import java.util.Optional;
import java.util.OptionalLong;
import java.util.function.DoubleFunction;

/**
 * When a signal that stood still begins to move: the change point of the curve y = a before τ and y = a + b·u + c·u²
 * from τ on, u = t − τ and b not against the direction, that has the least sum of squares. Every sample about the
 * knee has its say, where a threshold would hear one of them and be late by as long as the signal takes to reach it.
 *
 * @param seconds   τ, in s after the start of the search
 * @param fromNoise standard uncertainty of τ from the scatter of the samples, in s: half the stretch of τ within which
 *                  the sum of squares rises by no more than one variance (profile likelihood, one standard deviation)
 * @param model     bound of what the shape of the curve leaves open, in s: where noise or too few samples ask for more
 *                  of the movement than the definition says
 * @param before    level before τ, the trace's unit
 * @param samples   samples that it rests on
 * @param region    stretch of bench time that they cover
 */
public record Onset(double seconds, double fromNoise, double model, double before, int samples, Window region) {
    /** The share of the movement to which the curve is fitted: this much belongs to the definition. */
    private static final double DEPTH = 0.03;
    /** So much of the movement stands out of the noise, in standard deviations of a moving mean. */
    private static final int OUT_OF_NOISE = 8;
    /** After the knee there must be samples enough for the curve. */
    private static final int SAMPLES_LEAST = 6;

    /** More of the movement is asked for by this factor ... */
    private static final double DEEPER = 1.25;
    /** ... up to this share: whoever sees fewer samples of it saw no beginning. Common practice, no source. */
    private static final double DEPTH_MOST = 0.06;

    /** A movement of less than so many standard deviations of one sample is none. */
    private static final int CLEAR = 8;

    /** The outcome of a search: an onset, or what was there instead. */
    public sealed interface Found {
        /** It began to move. */
        record At(Onset onset) implements Found {}

        /** It did not move in that direction by more than noise. */
        record Still(double furthest, long atUs) implements Found {}

        /** It was moving already before the search began. */
        record Restless(double slope) implements Found {}

        /** Noise hides when it began; its standard uncertainty by the scatter of the samples would be that, in s. */
        record Hidden(double standard) implements Found {}

        /** Too few samples to tell. */
        record TooFew(int samples) implements Found {}
    }

    /**
     * The first onset in a window.
     *
     * @param rising   direction of the movement
     * @param window   its start is the zero of the time that is found
     * @param beforeUs how long before the window the signal stood still, in µs
     * @param noise    standard deviation of one sample, the trace's unit
     * @param widthUs  width of the moving means that find how far it goes, in µs
     */
    public static Found of(Trace trace, boolean rising, Window window, long beforeUs, double noise, long widthUs) {
        Window rest = new Window(window.fromUs() - beforeUs, window.fromUs());
        Optional<Average> still = Average.of(trace, rest);
        Optional<Extremes> extremes = Extremes.of(trace, window, widthUs);
        if (still.isEmpty() || still.get().samples() < 5 || extremes.isEmpty()) {
            return new Found.TooFew(still.map(Average::samples).orElse(0));
        }
        int sign = rising ? 1 : -1;
        double before = still.get().mean();
        double furthest = rising ? extremes.get().greatest() : extremes.get().least();
        long furthestUs = rising ? extremes.get().greatestUs() : extremes.get().leastUs();
        double depth = sign * (furthest - before);
        double scatter = Math.max(noise, still.get().deviation());
        if (depth <= CLEAR * noise || depth <= 0) {
            return new Found.Still(furthest, furthestUs);
        }
        Optional<StraightLine> slope = StraightLine.of(trace, rest, window.fromUs());
        if (slope.filter(line -> moves(line, rest, depth, noise)).isPresent()) {
            return new Found.Restless(slope.get().slope());
        }
        double averaged = scatter / Math.sqrt(Math.max(1, extremes.get().averaged()));
        double least = Math.max(DEPTH, Math.min(1, OUT_OF_NOISE * averaged / depth));
        return deepened(least, share -> fit(trace, sign, rest, before, share * depth, window, widthUs, noise));
    }

    /** From that share of the movement on, more of it until enough samples lie behind the knee. */
    private static Found deepened(double least, DoubleFunction<Optional<HingeFit>> fits) {
        double share = least;
        Optional<HingeFit> fit = fits.apply(share);
        double most = Math.max(least, DEPTH_MOST);
        while (share < most && fit.filter(one -> one.behind() >= SAMPLES_LEAST).isEmpty()) {
            share = Math.min(most, DEEPER * share);
            fit = fits.apply(share);
        }
        int behind = fit.map(HingeFit::behind).orElse(0);
        if (behind < SAMPLES_LEAST) {
            return new Found.TooFew(behind);
        }
        if (fit.get().hidden()) {
            return new Found.Hidden(fit.get().standard());
        }
        HingeFit deeper = fits.apply(Math.min(1, 2 * share)).orElse(fit.get());
        return new Found.At(onset(fit.get(), share, deeper));
    }

    /** A line that carries the signal on by a good part of its movement, and not by the chance of its noise. */
    private static boolean moves(StraightLine line, Window rest, double depth, double noise) {
        double carried = Math.abs(line.slope()) * rest.seconds();
        return carried > depth / 20 && carried > CLEAR * noise;
    }

    /** Where more had to be fitted than the definition says, each doubling of it moves the knee by about as much. */
    private static Onset onset(HingeFit fit, double share, HingeFit deeper) {
        double doublings = StrictMath.log(share / DEPTH) / StrictMath.log(2);
        double later = deeper.knee() - fit.knee();
        return new Onset(
                fit.knee(), fit.standard(), doublings * Math.abs(later), fit.before(), fit.samples(), fit.region());
    }

    private static Optional<HingeFit> fit(
            Trace trace,
            int sign,
            Window rest,
            double before,
            double depth,
            Window window,
            long widthUs,
            double noise) {
        OptionalLong gone = gone(trace, sign, before, depth, window, widthUs);
        if (gone.isEmpty()) {
            return Optional.empty();
        }
        long endUs = Math.max(gone.getAsLong() + widthUs / 2, window.fromUs());
        return HingeFit.of(trace, sign, new Window(rest.fromUs(), endUs), window.fromUs(), noise);
    }

    /**
     * When the moving mean has gone that far, in µs: told between samples, lest the fit reach the further the fewer
     * of them there are.
     */
    private static OptionalLong gone(Trace trace, int sign, double before, double depth, Window window, long widthUs) {
        MovingMean mean = new MovingMean(trace, widthUs, window.fromUs() - widthUs);
        long lastUs = window.fromUs();
        double last = 0;
        while (mean.advance(window.toUs())) {
            double far = sign * (mean.value() - before);
            if (far >= depth) {
                double share = far > last ? Math.max(0, (depth - last) / (far - last)) : 1;
                return OptionalLong.of(lastUs + Math.round(share * (mean.timeUs() - lastUs)));
            }
            lastUs = mean.timeUs();
            last = far;
        }
        return OptionalLong.empty();
    }
}
