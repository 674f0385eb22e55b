package dev.lapwing.signal;

/**
 * How long a signal stands about its own greatest or least value, so that noise may pick the extreme among many readings
 * that are alike.
 */
public final class Plateau {
    /** Noise is averaged out over so many times the width of a mean before its level is looked at. */
    private static final int WIDER = 25;
    /** A mean that lies further beyond the plateau than this many of its standard deviations is no noise. */
    private static final double BEYOND = 6;

    private final MovingMean wide;
    private final int sign;
    private final double noise;
    private double top = Double.NEGATIVE_INFINITY;
    private double seconds;
    private long lastUs;

    private Plateau(MovingMean wide, int sign, double noise) {
        this.wide = wide;
        this.sign = sign;
        this.noise = noise;
    }

    /**
     * How many widths long the signal stood within one {@code noise} of its extreme; 1 where it only touched it.
     *
     * @param widthUs  of the means among which {@code extreme} is the greatest or the least
     * @param greatest true for the greatest
     * @param extreme  that mean
     * @param noise    standard deviation of one such mean
     */
    public static double widths(
            Trace trace, Window window, long widthUs, boolean greatest, double extreme, double noise) {
        long widerUs = Math.max(widthUs, Math.min(WIDER * widthUs, (window.toUs() - window.fromUs()) / 4));
        Plateau plateau = new Plateau(new MovingMean(trace, widerUs, window.fromUs()), greatest ? 1 : -1, noise);
        plateau.look(window, widerUs);
        boolean peak = plateau.sign * extreme - plateau.top > BEYOND * noise;
        return peak ? 1 : Math.max(1, plateau.seconds * 1e6 / widthUs);
    }

    private void look(Window window, long widerUs) {
        while (wide.advance(window.toUs())) {
            boolean full = wide.newestUs() - window.fromUs() >= widerUs - widerUs / 8;
            double level = sign * wide.value();
            if (full && level > top + noise) {
                seconds = 0;
            }
            if (full && level >= top - noise) {
                seconds += lastUs == 0 ? 0 : (wide.newestUs() - lastUs) * 1e-6;
            }
            top = full ? Math.max(top, level) : top;
            lastUs = wide.newestUs();
        }
    }
}
