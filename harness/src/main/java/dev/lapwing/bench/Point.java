package dev.lapwing.bench;

/**
 * A terminal of the bench.
 *
 * @param name     matches {@code [A-Za-z0-9-]{1,32}}
 * @param kind     see {@link PointKind}
 * @param min      least count; 0 for digital points
 * @param max      greatest count; 1 for digital points
 * @param safe     count that an output takes in the safe state; 0 for inputs
 * @param filterUs fixed delay still contained in its stamps, in µs: the event was at stamp − filter
 * @param stampUs  bound of the error left in its stamps, in µs
 * @param glitchUs shorter pulses are not seen, in µs; 0 if all are
 */
public record Point(String name, PointKind kind, int min, int max, int safe, int filterUs, int stampUs, int glitchUs) {}
