package dev.lapwing.link;

import dev.lapwing.bench.Point;
import dev.lapwing.bench.PointKind;

/**
 * A terminal as a bench describes it.
 *
 * @param min      least count, 0 for digital points
 * @param max      greatest count, 1 for digital points
 * @param safe     count of an output in the safe state, 0 for inputs
 * @param stampUs  bound of the error left in its stamps, in µs, or {@link #UNSAID}
 * @param filterUs fixed delay still contained in its stamps, in µs, or {@link #UNSAID}
 * @param glitchUs shorter pulses are not sent, in µs, or {@link #UNSAID}
 */
public record LinkPoint(
        String name, PointKind kind, int min, int max, int safe, int stampUs, int filterUs, int glitchUs) {
    /** The bench does not say. */
    public static final int UNSAID = -1;

    public LinkPoint {
        if (!Wire.isName(name)) {
            throw new IllegalArgumentException("'" + name + "' is no name of a point");
        }
        if (min > max || kind.output() && (safe < min || safe > max)) {
            throw new IllegalArgumentException(
                    name + ": counts from " + min + " to " + max + ", safe at " + safe + ", are no range");
        }
        if (kind.digital() && (min != 0 || max != 1)) {
            throw new IllegalArgumentException(name + ": a digital point counts from 0 to 1");
        }
    }

    /** As a bench file describes it. */
    public static LinkPoint of(Point point) {
        return new LinkPoint(
                point.name(),
                point.kind(),
                point.min(),
                point.max(),
                point.safe(),
                point.stampUs(),
                point.filterUs(),
                point.glitchUs());
    }

    /** Whether it ramps. */
    public boolean analogOutput() {
        return kind.output() && !kind.digital();
    }

    public boolean takes(long count) {
        return count >= min && count <= max;
    }

    /** Whether its counts fit a dense message: signed 16 bits. */
    public boolean fitsDense() {
        return min >= Short.MIN_VALUE && max <= Short.MAX_VALUE;
    }
}
