package dev.lapwing.bench;

import dev.lapwing.naming.Actuator;
import dev.lapwing.source.Place;

/**
 * An actuator and the point that drives it: counts = zero + value · countsPerUnit, rounded, held to the point's range.
 *
 * @param zero          count at 0 of the actuator's base unit
 * @param countsPerUnit counts for one base unit; 1 for switches and notches
 */
public record Output(Actuator actuator, String point, double zero, double countsPerUnit, Place place) {
    /**
     * Count that drives the actuator to {@code value} (base unit); not yet held to the point's range. What no count can
     * be is the nearest that can, which is in no point's range.
     */
    public int counts(double value) {
        long counts = Math.round(zero + value * countsPerUnit);
        return (int) Math.max(Integer.MIN_VALUE, Math.min(Integer.MAX_VALUE, counts));
    }

    /** Value, in the base unit, that a count stands for. */
    public double value(int counts) {
        return (counts - zero) / countsPerUnit;
    }
}
