package dev.lapwing.uncertainty;

/**
 * How far the error that calibration and drift leave in a channel goes with the value that is read. A certificate's
 * standard uncertainty u holds at every value; it does not say whether two values are off alike (an offset), or the
 * less so the further they lie apart (a wrong gain, a bow). The error at the value x is taken as
 *
 * <p>e(x) = u·(A·cos φ(x) + B·sin φ(x))
 *
 * <p>with A and B independent, each of standard deviation 1, and φ growing evenly from −{@code turn} at the low end of
 * the calibrated range to +{@code turn} at the high one. Its standard deviation is u at every value. By the covariance
 * of quantities that share inputs (JCGM 100:2008, F.1.2.3, equation F.2, from memory) the errors of two values are
 * correlated by r = cos(φ₁ − φ₂), and their difference is known to √(2u²·(1 − r)) = 2u·sin(|φ₁ − φ₂|/2) (5.2.2,
 * equation 16): u of the span between both ends is 2u·sin({@code turn}), and that of a difference of the t-th
 * part of the range is 2u·sin(t·{@code turn}). As a sine is concave there, this is never less than t times that of the
 * span: a gain that is off is covered whole at every distance, and the greater the share of the span, the more room
 * there is for a bow besides. The most that any correlation allows is 2u, of r = −1: that is the span's where nobody
 * says how much of u it is.
 *
 * @param low  value at one end of the calibrated range, in the base unit of what is read
 * @param high value at the other end, above {@code low}
 * @param turn 0, an error that is the same at every value, to π/2, errors that are opposite at both ends
 */
public record Along(double low, double high, double turn) {
    /** The same at every value. */
    public static final Along CONSTANT = new Along(0, 1, 0);

    public Along {
        if (!(low < high) || !(turn >= 0 && turn <= Math.PI / 2)) {
            throw new IllegalArgumentException("no range from " + low + " to " + high + " with a turn of " + turn);
        }
    }

    /**
     * Of a channel whose span is known to {@code span}.
     *
     * @param low      value at one end of the calibrated range
     * @param high     value at the other end, above it
     * @param span     standard uncertainty of the difference between both ends; what is more than twice
     *                 {@code standard} counts as that
     * @param standard standard uncertainty at every value, the same unit
     */
    public static Along of(double low, double high, double span, double standard) {
        double turn = standard == 0 ? 0 : StrictMath.asin(Math.max(0, Math.min(1, span / (2 * standard))));
        return new Along(low, high, turn);
    }

    /** The factor of A at that value, 1 in the middle of the range. */
    public double alike(double value) {
        return StrictMath.cos(angle(value));
    }

    /** The factor of B at that value, 0 in the middle of the range. */
    public double along(double value) {
        return StrictMath.sin(angle(value));
    }

    /** Beyond the calibrated range nothing more is known than at its ends, but that it can be no further off. */
    private double angle(double value) {
        double place = 2 * (value - low) / (high - low) - 1;
        return Math.max(-Math.PI / 2, Math.min(Math.PI / 2, turn * place));
    }
}
