package dev.lapwing.measure;

import dev.lapwing.signal.Trace;
import dev.lapwing.uncertainty.Instrument;

/**
 * A sampled signal and what is known of its channel.
 *
 * @param trace      calibrated samples; may grow while a run is on
 * @param instrument the channel's doubt
 * @param least      value at one end of the channel's range, in the signal's base unit
 * @param greatest   value at the other end, above {@code least}
 * @param everyUs    sample interval in µs
 */
public record Sampled(Trace trace, Instrument instrument, double least, double greatest, long everyUs) {

    /** A sample from here down stands at the lower end of the range: the signal may have been anything below. */
    double lowEnd() {
        return least + instrument.resolution() / 2;
    }

    /** A sample from here up stands at the upper end of the range: the signal may have been anything above. */
    double highEnd() {
        return greatest - instrument.resolution() / 2;
    }

    /** Whether a sample of that value stands at an end of the range. */
    boolean atEnd(double value) {
        return value <= lowEnd() || value >= highEnd();
    }
}
