package dev.lapwing.signal;

import java.util.SplittableRandom;
import java.util.function.DoubleUnaryOperator;

/** Hand-made traces. */
public final class Traces {
    private Traces() {}

    /** Samples of a function of the time in s, from 0 on. */
    public static GrowingTrace of(int samples, long everyUs, DoubleUnaryOperator value) {
        GrowingTrace trace = new GrowingTrace(samples);
        for (int i = 0; i < samples; i++) {
            trace.append(i * everyUs, value.applyAsDouble(i * everyUs * 1e-6));
        }
        return trace;
    }

    /** The same with normal noise. */
    public static GrowingTrace noisy(
            int samples, long everyUs, DoubleUnaryOperator value, double deviation, SplittableRandom random) {
        return of(samples, everyUs, t -> value.applyAsDouble(t) + deviation * normal(random));
    }

    /** A standard normal deviate (Box and Muller 1958). */
    public static double normal(SplittableRandom random) {
        double radius = StrictMath.sqrt(-2 * StrictMath.log(1 - random.nextDouble()));
        return radius * StrictMath.cos(2 * Math.PI * random.nextDouble());
    }
}
