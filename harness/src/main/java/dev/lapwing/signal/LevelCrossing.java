package dev.lapwing.signal;

import java.util.Optional;
import java.util.OptionalDouble;

/**
 * Where a signal went through a level. Times in s after the start of the search.
 *
 * @param seconds    when
 * @param slope      the signal's slope there, in its unit per s; its sign is the direction
 * @param fromNoise  standard uncertainty of {@code seconds} from the scatter of the samples, in s
 * @param freedom    degrees of freedom of {@code fromNoise}; empty where it rests on the noise known beforehand
 * @param curvature  bound of what the straight line between or through the samples may have wrong, in s
 * @param samples    how many samples the line rests on; 2 for a chord
 * @param region     stretch of bench time that they cover
 */
public record LevelCrossing(
        double seconds,
        double slope,
        double fromNoise,
        OptionalDouble freedom,
        double curvature,
        int samples,
        Window region) {

    /**
     * The last time within a window that a signal goes through a level in one step between samples that clears the
     * noise, times from the window's start; empty where it goes through more slowly, or not at all.
     *
     * @param rising  true for from below
     * @param noise   standard deviation of one sample
     * @param everyUs sample interval in µs
     */
    public static Optional<LevelCrossing> step(
            Trace trace, double level, boolean rising, Window window, double noise, long everyUs) {
        return new CrossingFit(trace, level, rising ? 1 : -1, noise, everyUs, window.fromUs()).lastStep(window);
    }
}
