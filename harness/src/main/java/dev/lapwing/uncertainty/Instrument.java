package dev.lapwing.uncertainty;

/**
 * What is known of a measuring channel's doubt. Pressure figures and the like in the base unit of the channel's
 * dimension, k = 1 unless said.
 *
 * @param point           name of the bench point; the key of everything that this channel gets wrong each time alike
 * @param calibration     standard uncertainty of the calibration, of every reading of this point
 * @param drift           standard uncertainty of the drift since calibration, likewise
 * @param along           how far what both leave goes with the value that is read
 * @param resolution      width of one count
 * @param noise           standard deviation of one sample
 * @param stampBoundUs    bound of what is left wrong in a stamp after the fixed delay was taken off, in µs
 * @param stampedAtSource false where samples are stamped on arrival; then {@code stampBoundUs} holds the poll interval
 *                        and round trip
 * @param tubeBoundUs     bound of what is left wrong in an instant after the delay of a tube was taken off, in µs
 * @param clock           name of the clock that stamps it
 * @param clockRateBound  bound of that clock's rate error, as a share (50 ppm is 50e-6)
 */
public record Instrument(
        String point,
        double calibration,
        double drift,
        Along along,
        double resolution,
        double noise,
        long stampBoundUs,
        boolean stampedAtSource,
        long tubeBoundUs,
        String clock,
        double clockRateBound) {

    /** Without a sensing tube, and with an error that is the same at every value. */
    public Instrument(
            String point,
            double calibration,
            double drift,
            double resolution,
            double noise,
            long stampBoundUs,
            boolean stampedAtSource,
            String clock,
            double clockRateBound) {
        this(
                point,
                calibration,
                drift,
                Along.CONSTANT,
                resolution,
                noise,
                stampBoundUs,
                stampedAtSource,
                0,
                clock,
                clockRateBound);
    }

    /** By how much an instant may be off, stamp and tube together, in µs. */
    public long instantBoundUs() {
        return stampBoundUs + tubeBoundUs;
    }
}
