package dev.lapwing.simulated;

import dev.lapwing.naming.Signal;

/** What really is, as no bench could know it. For whoever asks how good a measurement was; never for the judge. */
public interface Truth {
    /** The true value of a signal now, in the base unit of its dimension; 0 or 1 for a wire. */
    double value(Signal signal);

    /** Hears the truth at every instant of the simulation, in order. */
    interface Observer {
        /**
         * @param benchUs what an errorless reading of the bench's clock gives, µs
         * @param truth   to be read during the call only
         */
        void at(long benchUs, Truth truth);
    }
}
