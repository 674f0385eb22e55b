package dev.lapwing.measure;

import dev.lapwing.quantity.Dimension;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Estimate;
import dev.lapwing.uncertainty.Input;
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
        parts.addAll(instant(instrument, 1));
        parts.add(stimulus(stimulusBoundUs, -1));
        parts.add(clock(instrument, seconds));
        return new Estimate(seconds, Dimension.TIME, parts);
    }

    /** What a channel's stamps, and the delay of its tube if it has one, may have wrong alike, in s. */
    static List<Component> instant(Instrument instrument, double sign) {
        String source = (instrument.stampedAtSource() ? "stamp/" : "arrival/") + instrument.point();
        Component stamp = Component.of(source, sign, Input.within(instrument.stampBoundUs() * 1e-6, Dimension.TIME));
        if (instrument.tubeBoundUs() == 0) {
            return List.of(stamp);
        }
        Input tube = Input.within(instrument.tubeBoundUs() * 1e-6, Dimension.TIME);
        return List.of(stamp, Component.of("tube/" + instrument.point(), sign, tube));
    }

    /** What the stamp of the stimulus may have wrong, in s. */
    static Component stimulus(long boundUs, double sign) {
        return Component.of("stimulus stamp", sign, Input.within(boundUs * 1e-6, Dimension.TIME));
    }

    /** A level is looked at once in a sample: what became so did within the interval before. In s. */
    static Component looked(Sampled channel) {
        return Component.of(
                "sample interval/" + channel.instrument().point(),
                1,
                Input.within(channel.everyUs() * 1e-6, Dimension.TIME));
    }

    /** What the clock's rate makes of a time, in s. */
    static Component clock(Instrument instrument, double seconds) {
        return Component.of(
                "clock/" + instrument.clock(),
                seconds,
                Input.within(instrument.clockRateBound(), Dimension.CLOCK_RATE));
    }
}
