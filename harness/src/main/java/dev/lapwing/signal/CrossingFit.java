package dev.lapwing.signal;

import java.util.Optional;
import java.util.OptionalDouble;

/** Tells the time of a crossing from the samples around a candidate; see {@link CrossingSearch}. */
final class CrossingFit {
    /** A rise by so many standard deviations of one sample is told apart from noise. */
    static final int CLEAR = 8;

    /** A line that must rest on more than this to either side says nothing of a time, in µs. */
    private static final long HALF_WIDTH_MAX_US = 2_560_000;

    private static final int CENTRINGS_MAX = 3;
    /** A bend of so many of its standard deviations is told apart from noise. */
    private static final int BEND_CLEAR = 2;

    private final Trace trace;
    private final double level;
    private final int sign;
    private final double noise;
    private final long everyUs;
    private final long zeroUs;

    /** A crossing; or none that can be told from noise; or more samples are needed to say. */
    record Result(Optional<LevelCrossing> crossing, boolean needsMore) {
        static final Result MORE = new Result(Optional.empty(), true);
    }

    CrossingFit(Trace trace, double level, int sign, double noise, long everyUs, long zeroUs) {
        this.trace = trace;
        this.level = level;
        this.sign = sign;
        this.noise = noise;
        this.everyUs = everyUs;
        this.zeroUs = zeroUs;
    }

    /**
     * True if the signal goes through the level in one step, from the sample before to that one, that clears the
     * noise.
     */
    private boolean steps(int i) {
        double step = sign * (trace.value(i) - trace.value(i - 1));
        boolean straddles = sign * (trace.value(i - 1) - level) <= 0 && sign * (trace.value(i) - level) > 0;
        return straddles && step >= CLEAR * noise;
    }

    /** The last such step within the window. */
    Optional<LevelCrossing> lastStep(Window window) {
        int first = Math.max(1, trace.firstAtOrAfter(window.fromUs()));
        for (int i = trace.firstAtOrAfter(window.toUs() + 1) - 1; i >= first; i--) {
            if (steps(i)) {
                return Optional.of(chord(i));
            }
        }
        return Optional.empty();
    }

    Result at(int candidate, long untilUs, boolean last) {
        if (candidate > 0 && steps(candidate)) {
            return new Result(Optional.of(chord(candidate)), false);
        }
        long centreUs = trace.timeUs(candidate);
        Optional<Fitted> best = Optional.empty();
        for (long half = Math.max(1, 5 * everyUs / 2); half <= HALF_WIDTH_MAX_US; half *= 2) {
            Attempt attempt = centred(centreUs, half, untilUs, last);
            if (attempt.needsMore) {
                return Result.MORE;
            }
            if (attempt.fitted.isEmpty()) {
                continue;
            }
            Fitted fitted = attempt.fitted.get();
            if (best.isPresent() && fitted.bent(noise) && best.get().certain(3)) {
                return new Result(best.map(this::crossing), false);
            }
            best = Optional.of(fitted);
            centreUs = fitted.centreUs;
            if (fitted.clears(CLEAR)) {
                return new Result(best.map(this::crossing), false);
            }
        }
        return new Result(best.filter(b -> b.certain(6)).map(this::crossing), false);
    }

    /** A line about the place where it crosses the level itself; none if it does not within its region. */
    private Attempt centred(long startUs, long half, long untilUs, boolean last) {
        long centreUs = startUs;
        Optional<Fitted> fitted = Optional.empty();
        for (int i = 0; i < CENTRINGS_MAX; i++) {
            if (!last && !reaches(centreUs + half, untilUs)) {
                return Attempt.MORE;
            }
            if (centreUs - half > untilUs) {
                return Attempt.NONE;
            }
            Window region =
                    new Window(Math.max(zeroUs, centreUs - half), Math.max(zeroUs, Math.min(untilUs, centreUs + half)));
            Optional<StraightLine> line = StraightLine.of(trace, region, zeroUs);
            if (line.isEmpty() || line.get().samples() < 4 || sign * line.get().slope() <= 0) {
                return Attempt.NONE;
            }
            double seconds = line.get().centre()
                    + (level - line.get().middle()) / line.get().slope();
            long crossesUs = zeroUs + Math.round(seconds * 1e6);
            if (Math.abs(crossesUs - startUs) > 4 * half) {
                return Attempt.NONE;
            }
            fitted = region.holds(crossesUs)
                    ? Optional.of(new Fitted(line.get(), seconds, crossesUs, region, sign, noise))
                    : Optional.empty();
            if (Math.abs(crossesUs - centreUs) <= half / 4) {
                break;
            }
            centreUs = crossesUs;
        }
        return new Attempt(fitted, false);
    }

    /** A fit, or none, or more samples are needed. */
    private record Attempt(Optional<Fitted> fitted, boolean needsMore) {
        static final Attempt NONE = new Attempt(Optional.empty(), false);
        static final Attempt MORE = new Attempt(Optional.empty(), true);
    }

    private LevelCrossing chord(int i) {
        double before = trace.value(i - 1);
        double step = trace.value(i) - before;
        double seconds = (trace.timeUs(i) - trace.timeUs(i - 1)) * 1e-6;
        double share = (level - before) / step;
        double slope = step / seconds;
        double scatter = noise * Math.sqrt(share * share + (1 - share) * (1 - share)) / Math.abs(slope);
        Bend bend = chordBend(i, seconds, share, slope);
        double at = (trace.timeUs(i - 1) - zeroUs) * 1e-6 + share * seconds + bend.later;
        Window region = new Window(trace.timeUs(i - 1), trace.timeUs(i));
        return new LevelCrossing(at, slope, scatter, OptionalDouble.empty(), bend.left, 2, region);
    }

    /**
     * What a curve makes of a crossing told by a straight line, in s.
     *
     * @param later how much later the curve goes through the level
     * @param noise standard uncertainty of that from the scatter of the samples
     * @param left  bound of what is left
     */
    private record Bend(double later, double noise, double left) {}

    /**
     * Where the signal turns sharply, what the chords beside leave open. Else a parabola with second derivative c lies
     * c/2·x·(h − x) below its chord; c from the slopes of the neighbouring chords, whose middles are 2h apart. Half of
     * the most that this may be, h²/8·c, is left: c need not be constant. A parabola's chord has the mean slope of its
     * neighbours; what is steeper may have jumped in that share, and be off by the longer way to a sample. What noise
     * may have made of the three slopes, √5 of it over h, is left aside twice over.
     */
    private Bend chordBend(int i, double seconds, double share, double slope) {
        if (i < 2 || i + 1 >= trace.size() || seconds * 1e6 > 3 * everyUs) {
            return new Bend(0, 0, seconds / 2);
        }
        double before = slopeBetween(i - 2, i - 1);
        double after = slopeBetween(i, i + 1);
        double scatter = 2 * Math.sqrt(5) * noise / (seconds * Math.abs(slope));
        double later = i + 2 < trace.size() ? slopeBetween(i + 1, i + 2) : after;
        Optional<SharpTurn> sharp = SharpTurn.of(share, before / slope, after / slope, later / slope, scatter);
        if (sharp.isPresent()) {
            return new Bend(
                    (sharp.get().likely() - share) * seconds, 0, sharp.get().reach() * seconds);
        }
        double most = seconds / 16 * (after - before) / slope;
        double steeper = Math.abs(1 - (before + after) / 2 / slope) - scatter;
        double jump = Math.max(0, Math.min(1, steeper)) * Math.max(share, 1 - share) * seconds;
        return new Bend(4 * share * (1 - share) * most, 0, Math.max(jump, Math.abs(most) / 2));
    }

    private double slopeBetween(int a, int b) {
        return (trace.value(b) - trace.value(a)) / ((trace.timeUs(b) - trace.timeUs(a)) * 1e-6);
    }

    private LevelCrossing crossing(Fitted fitted) {
        StraightLine line = fitted.line;
        double scatter = fitted.scatter();
        double off = fitted.seconds - line.centre();
        double u = scatter * Math.sqrt(1.0 / line.samples() + off * off / line.spread()) / Math.abs(line.slope());
        OptionalDouble freedom =
                line.residual() > noise ? OptionalDouble.of(line.degreesOfFreedom()) : OptionalDouble.empty();
        Bend bend = steps(fitted, bend(fitted, off));
        return new LevelCrossing(
                fitted.seconds + bend.later,
                line.slope(),
                Math.sqrt(u * u + bend.noise * bend.noise),
                freedom,
                bend.left,
                line.samples(),
                fitted.region);
    }

    /**
     * At its centre a least-squares line over ± w lies w²/6·c above a parabola with second derivative c; that one
     * from the slopes of the two halves, whose middles are w apart. A bend that noise may have made is taken out in
     * part and the rest left as a bound; a clear one is taken out, and a quarter of it left for what is no parabola.
     */
    private Bend bend(Fitted fitted, double off) {
        Window region = fitted.region;
        long middle = (region.fromUs() + region.toUs()) / 2;
        double w = region.seconds() / 2;
        Optional<StraightLine> left = StraightLine.of(trace, new Window(region.fromUs(), middle), zeroUs);
        Optional<StraightLine> right = StraightLine.of(trace, new Window(middle, region.toUs()), zeroUs);
        if (left.isEmpty() || right.isEmpty()) {
            return new Bend(0, 0, w / 2);
        }
        double factor = w / 6 / fitted.line.slope() * Math.max(0, 1 - 3 * off * off / (w * w));
        double later = factor * (right.get().slope() - left.get().slope());
        double spread = 1 / left.get().spread() + 1 / right.get().spread();
        double u = Math.abs(factor) * fitted.scatter() * Math.sqrt(spread);
        double size = Math.abs(later);
        if (size >= w / 4) {
            return new Bend(0, 0, Math.min(w / 2, size));
        }
        // Of a bend that noise may have made that share is taken out which is likely to be one (shrinkage).
        double share = size > BEND_CLEAR * u ? 1 : size * size / (size * size + u * u);
        return size == 0 ? new Bend(0, 0, 0) : new Bend(share * later, share * u, size * Math.max(0.25, 1 - share));
    }

    /** What steps under the noise leave open, where that is more than what a smooth bend does. */
    private Bend steps(Fitted fitted, Bend bend) {
        StraightLine line = fitted.line;
        double w = fitted.region.seconds() / 2;
        double middle = ((fitted.region.fromUs() + fitted.region.toUs()) / 2.0 - zeroUs) * 1e-6;
        // A line over ± w lies w²/6·c above a parabola with second derivative c, and goes through the level so much
        // later.
        double second = w == 0 ? 0 : 6 / (w * w) * bend.later * line.slope();
        Stairs stairs = new Stairs(trace, fitted.region, sign > 0, noise);
        double off = stairs.off(
                x -> line.middle() + line.slope() * (x + middle - line.centre()) + second * (x * x / 2 - w * w / 6),
                level,
                fitted.seconds + bend.later - middle);
        return new Bend(bend.later, bend.noise, Math.max(bend.left, off));
    }

    private boolean reaches(long timeUs, long untilUs) {
        return untilUs >= timeUs && trace.timeUs(trace.size() - 1) >= timeUs;
    }

    /** A line, and the time in s after zero at which it goes through the level. */
    private record Fitted(StraightLine line, double seconds, long centreUs, Window region, int sign, double noise) {

        double scatter() {
            return Math.max(noise, line.residual());
        }

        /** The line rises by that many times the scatter over its region. */
        boolean clears(int times) {
            return sign * line.slope() * region.seconds() >= times * scatter();
        }

        boolean certain(int times) {
            return sign * line.slope() * Math.sqrt(line.spread()) >= times * scatter();
        }

        /** Samples lie further from the line than their noise puts them. */
        boolean bent(double expected) {
            return expected > 0 && line.samples() >= 8 && line.residual() > 2 * expected;
        }
    }
}
