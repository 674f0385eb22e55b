package dev.lapwing.uncertainty;

import java.util.SplittableRandom;

/**
 * Normal deviates, mean 0 and standard deviation 1, the same on every machine: by rejection from a stack of layers of
 * equal area. Cheap, because nearly every draw is one random number, one comparison and one product.
 */
// G. Marsaglia, W. W. Tsang, "The Ziggurat Method for Generating Random Variables", J. Stat. Software 5 (2000) 8, in
// the form with separate bits for layer and abscissa (J. A. Doornik, 2005). R and V of 128 layers from memory; that
// they fit together is tested.
public final class Normal {
    static final int LAYERS = 128;
    /** Where the lowest layer's rectangle ends and the tail begins. */
    static final double R = 3.442619855899;
    /** Area of each layer under exp(−x²/2), the tail belonging to the lowest. */
    static final double V = 9.91256303526217e-3;

    private static final double[] EDGE = edges();

    private final SplittableRandom random;

    public Normal(SplittableRandom random) {
        this.random = random;
    }

    /** Right edges from the lowest layer, as wide as a rectangle of its area with the tail, up to the peak at 0. */
    static double[] edges() {
        double[] x = new double[LAYERS + 1];
        double height = density(R);
        x[0] = V / height;
        x[1] = R;
        for (int i = 2; i < LAYERS; i++) {
            height += V / x[i - 1];
            x[i] = StrictMath.sqrt(-2 * StrictMath.log(height));
        }
        return x;
    }

    static double density(double x) {
        return StrictMath.exp(-0.5 * x * x);
    }

    public double next() {
        while (true) {
            long bits = random.nextLong();
            int layer = (int) bits & (LAYERS - 1);
            double x = ((bits >>> 11) * 0x1p-52 - 1) * EDGE[layer];
            if (Math.abs(x) < EDGE[layer + 1]) {
                return x;
            }
            if (layer == 0) {
                return tail(x < 0);
            }
            double low = density(EDGE[layer]);
            double high = density(EDGE[layer + 1]);
            if (low + random.nextDouble() * (high - low) < density(x)) {
                return x;
            }
        }
    }

    private double tail(boolean negative) {
        double x;
        double y;
        do {
            x = StrictMath.log(1 - random.nextDouble()) / R;
            y = StrictMath.log(1 - random.nextDouble());
        } while (-2 * y < x * x);
        return negative ? x - R : R - x;
    }
}
