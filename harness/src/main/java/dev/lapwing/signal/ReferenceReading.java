package dev.lapwing.signal;

/**
 * What a converter counted while a known value was applied.
 *
 * @param value   applied, in the base unit of what is calibrated
 * @param counts  mean count
 * @param noise   standard deviation of one sample, in counts
 * @param samples how many, at least 2
 */
public record ReferenceReading(double value, double counts, double noise, int samples) {
    public ReferenceReading {
        if (samples < 2 || !(noise >= 0) || !Double.isFinite(value) || !Double.isFinite(counts)) {
            throw new IllegalArgumentException("no reading of " + value + ": " + counts + " counts of " + samples);
        }
    }
}
