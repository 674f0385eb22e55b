package dev.lapwing.uncertainty;

import java.util.SplittableRandom;

/** Draws the error of a source, in units of its standard uncertainty, by its distribution (JCGM 101:2008, 6.4). */
interface Deviate {
    double next();

    static Deviate of(Input input, SplittableRandom random) {
        return switch (input.distribution()) {
            case NORMAL -> new Normal(random)::next;
            case RECTANGULAR -> () -> (2 * random.nextDouble() - 1) * Estimate.rectangular(3);
            case STUDENT ->
                input.degreesOfFreedom().isPresent()
                        ? student(input.degreesOfFreedom().getAsDouble(), random)
                        : new Normal(random)::next;
        };
    }

    /**
     * Student's t, not scaled to a standard deviation of 1 (JCGM 101:2008, 6.4.9.2): by R. W. Bailey, "Polar Generation
     * of Random Variates with the t-Distribution", Math. Comp. 62 (1994) 779-781, from memory; tested against the
     * distribution itself.
     */
    private static Deviate student(double freedom, SplittableRandom random) {
        return () -> {
            double u;
            double w;
            do {
                u = 2 * random.nextDouble() - 1;
                double v = 2 * random.nextDouble() - 1;
                w = u * u + v * v;
            } while (w > 1 || w == 0);
            return u * Math.sqrt(freedom * (StrictMath.pow(w, -2 / freedom) - 1) / w);
        };
    }
}
