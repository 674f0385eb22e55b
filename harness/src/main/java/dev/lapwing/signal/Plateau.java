package dev.lapwing.signal;

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
        double top = plateau.top();
        if (plateau.sign * extreme - top > BEYOND * noise) {
            return 1;
        }
        double level = top - LUCK * noise * Math.sqrt(widthUs / (double) widerUs);
        return Math.max(1, plateau.seconds(level, noise) * 1e6 / widthUs);
    }

    private double top() {
        double top = Double.NEGATIVE_INFINITY;
        MovingMean mean = new MovingMean(trace, widerUs, window.fromUs());
        while (mean.advance(window.toUs())) {
            top = full(mean) ? Math.max(top, sign * mean.value()) : top;
        }
        return top;
    }

    /** The time that it stood, each moment counted by how often noise picks it. */
    private double seconds(double level, double noise) {
        double seconds = 0;
        long lastUs = Long.MIN_VALUE;
        MovingMean mean = new MovingMean(trace, widerUs, window.fromUs());
        while (mean.advance(window.toUs())) {
            double d = Math.max(0, level - sign * mean.value()) / noise;
            if (full(mean) && d < TAIL) {
                double counts = lastUs == Long.MIN_VALUE ? 0 : (mean.newestUs() - lastUs) * 1e-6;
                seconds += counts * StrictMath.exp(-TAIL * d - d * d / 2);
            }
            lastUs = mean.newestUs();
        }
        return seconds;
    }

    private boolean full(MovingMean mean) {
        return mean.newestUs() - window.fromUs() >= widerUs - widerUs / 8;
    }
}
