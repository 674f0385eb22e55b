package dev.lapwing.signal;

/**
 * A stretch of bench time, both ends included.
 *
 * @param fromUs in µs
 * @param toUs   in µs, not before {@code fromUs}
 */
public record Window(long fromUs, long toUs) {
    public Window {
        if (toUs < fromUs) {
            throw new IllegalArgumentException("a window must not end before it starts: " + fromUs + " to " + toUs);
        }
    }

    public double seconds() {
        return (toUs - fromUs) * 1e-6;
    }

    public boolean holds(long timeUs) {
        return fromUs <= timeUs && timeUs <= toUs;
    }
}
