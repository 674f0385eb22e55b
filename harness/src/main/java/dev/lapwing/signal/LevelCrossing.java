package dev.lapwing.signal;

/**
 * Where a signal went through a level. Times in s after the start of the search.
 *
 * @param seconds    when
 * @param slope      the signal's slope there, in its unit per s; its sign is the direction
 * @param fromNoise  standard uncertainty of {@code seconds} from the scatter of the samples, in s
 * @param curvature  bound of what the straight line between or through the samples may have wrong, in s
 * @param samples    how many samples the line rests on; 2 for a chord
 * @param region     stretch of bench time that they cover
 */
public record LevelCrossing(
        double seconds, double slope, double fromNoise, double curvature, int samples, Window region) {}
