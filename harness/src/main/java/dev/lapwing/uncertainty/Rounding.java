package dev.lapwing.uncertainty;

import dev.lapwing.quantity.Dimension;
import java.util.OptionalDouble;

/**
 * What rounding to whole counts leaves wrong in the mean of many readings. Without noise all of them are wrong alike,
 * by half a count at the most. Noise carries them over the edges between counts, and the mean comes to lie between:
 * with normal noise of σ the mean error over the place μ within a count q is
 *
 * <p>Σ (−1)ᵏ·q/(πk)·exp(−2π²k²σ²/q²)·sin(2πkμ/q)
 *
 * <p>(B. Widrow and I. Kollár, Quantization Noise, 2008, on Gaussian input; from memory). Each place within a count
 * being as likely, its mean square is the sum of half the squares of these amplitudes: q²/12 for σ = 0, 0.16 % of q
 * for half a count.
 */
public final class Rounding {
    private static final int TERMS = 400;

    private Rounding() {}

    /**
     * @param count  width of a count, 0 or more
     * @param dither standard deviation of the readings' noise, 0 or more, the same unit
     * @return standard uncertainty that rounding leaves in their mean, the same unit
     */
    public static double ofMean(double count, double dither) {
        if (count == 0) {
            return 0;
        }
        double ratio = dither / count;
        if (ratio == 0) {
            return count / Math.sqrt(12);
        }
        double sum = 0;
        for (int k = 1; k <= TERMS; k++) {
            double each = StrictMath.exp(-4 * Math.PI * Math.PI * k * k * ratio * ratio) / (2.0 * k * k);
            sum += each;
            if (each < 1e-9 * sum) {
                break;
            }
        }
        return Math.min(count / Math.sqrt(12), count / Math.PI * Math.sqrt(sum));
    }

    /** The same as an input: type B, rectangular, as it is without noise. */
    public static Input input(double count, double dither, Dimension dimension) {
        return new Input(
                ofMean(count, dither), dimension, Evaluation.B, Distribution.RECTANGULAR, OptionalDouble.empty());
    }
}
