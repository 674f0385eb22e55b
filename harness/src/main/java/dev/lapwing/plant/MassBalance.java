package dev.lapwing.plant;

/**
 * Where the air of a train is, in kg, since it was made or last charged.
 *
 * @param initial   stored at that time
 * @param delivered by the compressor since
 * @param vented    to atmosphere since, less what came in where a pipe stood below it
 * @param stored    now, in every pipe, reservoir and cylinder
 */
public record MassBalance(double initial, double delivered, double vented, double stored) {
    /** What cannot be accounted for, in kg: zero but for rounding. */
    public double missing() {
        return initial + delivered - vented - stored;
    }
}
