package dev.lapwing.signal;

import java.util.Optional;
import java.util.function.DoubleFunction;

/**
 * When a signal that stood still begins to move: the change point of the curve y = a before τ and y = a + b·u + c·u²
 * from τ on, u = t − τ and b not against the direction, that has the least sum of squares. Every sample about the knee
 * has its say, where a threshold would hear one of them and be late by as long as the signal takes to reach it.
 *
 * @param seconds   τ, in s after the start of the search
 * @param fromNoise standard uncertainty of τ from the scatter of the samples, in s: half the stretch of τ within which
 *                  the sum of squares rises by no more than one variance (profile likelihood, one standard deviation)
 * @param model     bound of what the shape of the curve leaves open, in s: how far τ moves when only the first half of
 *                  the movement is fitted
 * @param before    level before τ, the trace's unit
 * @param samples   samples that it rests on
 * @param region    stretch of bench time that they cover
 */
public record Onset(double seconds, double fromNoise, double model, double before, int samples, Window region) {
    /** The curve is fitted to the first tenth of the movement, which a parabola follows closely. */
    private static final double DEPTH = 0.1;
    /** Where a tenth does not stand out of the noise by so many standard deviations: to as much as a quarter. */
    private static final int FAR = 60;

    private static final double DEPTH_FAR = 0.25;
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
        double least = Math.min(depth, 2 * CLEAR * scatter);
        return narrowed(
                deep(scatter / depth) * depth, least, d -> fit(trace, sign, rest, before, d, window, widthUs, noise));
    }

    /**
     * The fit of the depth asked for, if the first half of it says the same; else that of the half, and so on, down to
     * what stands out of the noise. Where they never agree, what is left between the last two is a bound of the doubt.
     */
    private static Found narrowed(double deepest, double least, DoubleFunction<Optional<HingeFit>> fits) {
        Optional<HingeFit> whole = fits.apply(deepest);
        if (whole.isEmpty()) {
            return new Found.TooFew(0);
        }
        double depth = deepest;
        while (true) {
            Optional<HingeFit> half = fits.apply(depth / 2);
            if (half.isEmpty() || agree(whole.get(), half.get()) || depth / 2 < least) {
                return new Found.At(onset(whole.get(), half.orElse(whole.get())));
            }
            whole = half;
            depth /= 2;
        }
    }

    private static boolean agree(HingeFit whole, HingeFit half) {
        double byChance = StrictMath.hypot(whole.standard(), half.standard());
        return Math.abs(whole.knee() - half.knee()) <= 2 * byChance;
    }

    /** What share of the movement is fitted; {@code noise} as a share of it as well. */
    private static double deep(double noise) {
        double far = Math.max(DEPTH, Math.min(DEPTH_FAR, FAR * noise));
        return Math.min(1, Math.max(far, 2 * CLEAR * noise));
    }

    /** A line that carries the signal on by a good part of its movement, and not by the chance of its noise. */
    private static boolean moves(StraightLine line, Window rest, double depth, double noise) {
        double carried = Math.abs(line.slope()) * rest.seconds();
        return carried > depth / 20 && carried > CLEAR * noise;
    }

    /**
     * A movement that is no parabola moves the knee, the more the deeper the fit. Where half the depth gives another
     * knee by more than chance, the step is taken once more, towards no depth at all; as much is left as a bound.
     */
    private static Onset onset(HingeFit whole, HingeFit half) {
        double step = half.knee() - whole.knee();
        double apart = Math.abs(step);
        double byChance = StrictMath.hypot(whole.standard(), half.standard());
        boolean clear = apart > 2 * byChance;
        return new Onset(
                clear ? half.knee() + step : whole.knee(),
                clear ? StrictMath.hypot(2 * half.standard(), whole.standard()) : whole.standard(),
                clear ? apart : Math.max(0, apart - byChance),
                whole.before(),
                whole.samples(),
                whole.region());
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
        MovingMean mean = new MovingMean(trace, widthUs, window.fromUs() - widthUs);
        while (mean.advance(window.toUs())) {
            if (sign * (mean.value() - before) >= depth) {
                long endUs = Math.max(mean.newestUs(), window.fromUs());
                return HingeFit.of(trace, sign, new Window(rest.fromUs(), endUs), window.fromUs(), noise);
            }
        }
        return Optional.empty();
    }
}
