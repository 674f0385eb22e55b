package dev.lapwing.measure;

import dev.lapwing.plan.Check;
import dev.lapwing.signal.CrossingSearch;
import dev.lapwing.signal.LevelCrossing;
import dev.lapwing.signal.MovedLevel;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Estimate;
import dev.lapwing.uncertainty.Instrument;

/** What is claimed of single readings of a channel. */
final class Channels {
    private Channels() {}

    /**
     * What a mean of readings over {@value Watched#WIDTH_US} µs may have wrong, expanded (k = 2), base unit:
     * calibration, drift and what its noise leaves in it.
     */
    static double expanded(Sampled sampled) {
        Instrument instrument = sampled.instrument();
        double calibration = instrument.calibration();
        double drift = instrument.drift();
        double noise = meanNoise(sampled);
        return 2 * Math.sqrt(calibration * calibration + drift * drift + noise * noise);
    }

    /** Standard deviation of such a mean from noise alone, base unit. */
    static double meanNoise(Sampled sampled) {
        double averaged = Math.max(1, (double) Watched.WIDTH_US / sampled.everyUs());
        return sampleNoise(sampled.instrument()) / Math.sqrt(averaged);
    }

    /**
     * Noise that carries readings over the edges between counts, as far as both the calibration and the readings say
     * so, base unit.
     *
     * @param seen standard deviation of the readings, rounding to counts included
     */
    static double dither(Instrument instrument, double seen) {
        double rounding = Estimate.rectangular(instrument.resolution() / 2);
        return Math.min(instrument.noise(), Math.sqrt(Math.max(0, seen * seen - rounding * rounding)));
    }

    /** Standard deviation of one sample, base unit, rounding to counts included. */
    static double sampleNoise(Instrument instrument) {
        double rounding = Estimate.rectangular(instrument.resolution() / 2);
        return Math.sqrt(instrument.noise() * instrument.noise() + rounding * rounding);
    }

    /** When that channel crosses a level, as a function of the level. */
    static MovedLevel moved(
            Sampled sampled, double level, boolean rising, Window window, long untilUs, LevelCrossing found) {
        double noise = sampleNoise(sampled.instrument());
        return new MovedLevel(sampled.trace(), level, rising, window, noise, sampled.everyUs(), untilUs, found);
    }

    /** @param shift by how much the level is moved, the signal's unit */
    static CrossingSearch search(Sampled sampled, Check.Crossing crossing, double shift, Window window) {
        return new CrossingSearch(
                sampled.trace(),
                crossing.level() + shift,
                crossing.rising(),
                window,
                sampleNoise(sampled.instrument()),
                sampled.everyUs());
    }
}
