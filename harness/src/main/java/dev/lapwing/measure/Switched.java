package dev.lapwing.measure;

import dev.lapwing.signal.Edges;
import dev.lapwing.uncertainty.Instrument;

/**
 * A two-state signal and what is known of its channel.
 *
 * @param edges      its level from the first report on; may grow while a run is on
 * @param instrument the channel's doubt; only its stamp and clock count
 */
public record Switched(Edges edges, Instrument instrument) {}
