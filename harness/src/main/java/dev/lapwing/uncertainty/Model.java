package dev.lapwing.uncertainty;

/** What a quantity would be with given errors of its sources: a measurement model (JCGM 101:2008, 4.1). */
@FunctionalInterface
public interface Model {
    /**
     * @param deviates error of each source in units of its standard uncertainty, in the order in which the sources were
     *                 given
     * @return the quantity in its base unit; positive infinity where with such errors it never came, negative infinity
     *         where it had come before anything was watched
     */
    double value(double[] deviates);
}
