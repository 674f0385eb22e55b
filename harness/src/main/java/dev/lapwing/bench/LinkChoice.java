package dev.lapwing.bench;

/** How a bench is reached. */
public sealed interface LinkChoice {
    /**
     * Not at all: plant and unit run in this process, in virtual time. What its transducers and its clock really get
     * wrong is drawn from these figures; what is claimed of them stands with the calibrations and the points.
     *
     * @param stepSeconds     step of the plant, in s
     * @param commandDelayUs  greatest delay of a timed set's execution, in µs
     * @param transducerError standard deviation of a transducer's constant error, as a share of its calibrated range
     * @param transducerNoise standard deviation of one sample's noise, as a share of its calibrated range
     * @param clockError      greatest rate error of the bench clock, as a share
     */
    record Simulated(
            double stepSeconds, long commandDelayUs, double transducerError, double transducerNoise, double clockError)
            implements LinkChoice {}
}
