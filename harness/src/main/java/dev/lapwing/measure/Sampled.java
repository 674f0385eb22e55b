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
public record Sampled(Trace trace, Instrument instrument, double least, double greatest, long everyUs) {}
