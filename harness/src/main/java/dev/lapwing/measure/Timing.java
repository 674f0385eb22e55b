package dev.lapwing.measure;

import dev.lapwing.quantity.Dimension;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Estimate;
import dev.lapwing.uncertainty.Instrument;
import java.util.ArrayList;
import java.util.List;

/** What the doubt about stamps and clocks does to a time. */
final class Timing {
    /**
     * A wire's new level counts once it has stayed for so long; shorter is contact bounce. Common practice, no
     * source.
     */
    static final long BOUNCE_US = 10_000;

    private Timing() {}

    /**
     * Time from the stimulus to an event at that channel.
     *
     * @param seconds         the time, in s
     * @param stimulusBoundUs bound of the stimulus's own stamp, in µs
     * @param more            what else is doubtful of the event's instant, in s
     */
    static Estimate sinceStimulus(double seconds, long stimulusBoundUs, Instrument instrument, List<Component> more) {
        List<Component> parts = new ArrayList<>(more);
        parts.add(stamp(instrument, 1));
        parts.add(new Component("stimulus stamp", -rectangular(stimulusBoundUs)));
        parts.add(clock(instrument, seconds));
        return new Estimate(seconds, Dimension.TIME, parts);
    }

    /** What a channel's stamps may have wrong alike, in s. */
    static Component stamp(Instrument instrument, double sign) {
        return new Component("stamp/" + instrument.point(), sign * rectangular(instrument.stampBoundUs()));
    }

    /** What the clock's rate makes of a time, in s. */
    static Component clock(Instrument instrument, double seconds) {
        return new Component(
                "clock/" + instrument.clock(), Estimate.rectangular(instrument.clockRateBound()) * seconds);
    }

    private static double rectangular(long boundUs) {
        return Estimate.rectangular(boundUs * 1e-6);
    }
}
