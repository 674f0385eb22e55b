package dev.lapwing.finding;

/**
 * A point that a finding rests on, for the report to draw.
 *
 * @param signal key of the signal, as in {@code dev.lapwing.naming.Signal#key()}
 * @param timeUs bench time in µs
 * @param value  in the base unit of the signal; 0 or 1 for a wire
 * @param label  a few words
 */
public record Mark(String signal, long timeUs, double value, String label) {}
