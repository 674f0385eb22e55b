package dev.lapwing.signal;

import java.util.Optional;

/**
 * How long a signal stands about its own greatest or least value, so that noise may pick the extreme among many
 * readings that are alike. A reading that lies d standard deviations lower is picked less often than one at the top, by
 * exp(−3·d − d²/2): the ratio of the normal density about three standard deviations out, where the greatest of a few
 * hundred lies.
 */
public final class Plateau {
    /** Noise is averaged out over so many times the width of a mean before its level is looked at. */
    private static final int WIDER = 9;
    /** By how many of their own standard deviations the greatest of the wider means is lucky itself, about. */
    private static final double LUCK = 2;
    /** A mean that lies further beyond the plateau than this many of its standard deviations is no noise. */
    private static final double BEYOND = 6;
    /** Where the greatest of many lies, in standard deviations. */
    private static final double TAIL = 3;

    private final Trace trace;
    private final Window window;
    private final long widerUs;
    private final int sign;

    private Plateau(Trace trace, Window window, long widerUs, int sign) {
        this.trace = trace;
        this.window = window;
        this.widerUs = widerUs;
        this.sign = sign;
    }

    /**
     * How many widths long the signal stood about its extreme; 1 where it only touched it.
     *
     * @param widthUs  of the means among which {@code extreme} is the greatest or the least
     * @param greatest true for the greatest
     * @param extreme  that mean
     * @param noise    standard deviation of one such mean
     */
    public static double widths(
            Trace trace, Window window, long widthUs, boolean greatest, double extreme, double noise) {
        if (noise == 0) {
            return 1;
        }
        long widerUs = Math.max(widthUs, Math.min(WIDER * widthUs, (window.toUs() - window.fromUs()) / 4));
        Plateau plateau = new Plateau(trace, window, widerUs, greatest ? 1 : -1);
        double lowest = plateau.sign * extreme - BEYOND * noise;
        double top = plateau.top(lowest);
        if (top < lowest) {
            return 1;
        }
        double level = top - LUCK * noise * Math.sqrt(widthUs / (double) widerUs);
        return Math.max(1, plateau.seconds(level, noise) * 1e6 / widthUs);
    }

    /** The greatest of the wider means, or something lower where it is lower than that. */
    private double top(double lowest) {
        Promising promising = Promising.of(trace, window.fromUs() + widerUs, window.toUs());
        Optional<Window> block = sign > 0 ? promising.greatest() : promising.least();
        double reached = block.map(in -> new Window(in.fromUs() - widerUs, in.toUs()))
                .map(in -> top(in, widerUs, Double.NEGATIVE_INFINITY))
                .map(top -> top - Promising.ROUNDING * Math.abs(top))
                .orElse(Double.NEGATIVE_INFINITY);
        return top(window, full(), Math.max(lowest, reached));
    }

    /**
     * @param fullUs  width from which on a mean counts
     * @param reached means below it are of no interest
     */
    private double top(Window in, long fullUs, double reached) {
        double top = Double.NEGATIVE_INFINITY;
        MovingMean mean = new MovingMean(trace, widerUs, in.fromUs());
        while (mean.advance(in.toUs())) {
            if (mean.newestUs() - in.fromUs() >= fullUs) {
                top = Math.max(top, sign * mean.value());
            }
            pass(mean, Math.max(top, reached), in.toUs());
        }
        return top;
    }

    /** Passes over means that are less extreme than a level. */
    private void pass(MovingMean mean, double level, long untilUs) {
        if (sign > 0) {
            mean.pass(Double.NEGATIVE_INFINITY, level, untilUs);
        } else {
            mean.pass(-level, Double.POSITIVE_INFINITY, untilUs);
        }
    }

    /** The time that it stood, each moment counted by how often noise picks it. */
    private double seconds(double level, double noise) {
        double seconds = 0;
        long lastUs = Long.MIN_VALUE;
        MovingMean mean = new MovingMean(trace, widerUs, window.fromUs());
        while (mean.advance(window.toUs())) {
            double d = Math.max(0, level - sign * mean.value()) / noise;
            if (mean.newestUs() - window.fromUs() >= full() && d < TAIL) {
                double counts = lastUs == Long.MIN_VALUE ? 0 : (mean.newestUs() - lastUs) * 1e-6;
                seconds += counts * StrictMath.exp(-TAIL * d - d * d / 2);
            }
            pass(mean, level - TAIL * noise, window.toUs());
            lastUs = mean.newestUs();
        }
        return seconds;
    }

    /** Width from which on a mean counts, in µs. */
    private long full() {
        return widerUs - widerUs / 8;
    }
}
