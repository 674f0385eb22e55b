package dev.lapwing.measure;

import dev.lapwing.finding.Limit;
import dev.lapwing.naming.Signal;
import dev.lapwing.signal.Extremes;
import dev.lapwing.signal.Samples;
import dev.lapwing.signal.Trace;
import dev.lapwing.signal.Window;
import java.util.List;
import java.util.Optional;

/**
 * Why something cannot be measured.
 *
 * @param reason a clause
 * @param mend   what would mend it, a clause
 */
record Doubt(String reason, String mend) {
    /** Fewer of the samples that were due than this share say too little. Common practice, no source. */
    private static final double SAMPLES_LEAST_SHARE = 0.5;
    /**
     * More of the samples at an end of the range than this share hide what the signal did. Common practice, no
     * source.
     */
    private static final double AT_END_GREATEST_SHARE = 0.1;
    /** A step between samples of more intervals than this, and longer than a mean, is a hole in what was seen. */
    private static final int INTERVALS_GREATEST = 3;
    /** The measurement that this leaves. */
    Measurement.NotMeasurable of(String quantity, Window window) {
        return new Measurement.NotMeasurable(reason, mend, quantity, List.of(), window);
    }

    /** What speaks against relying on a channel in that stretch, if anything does. */
    static Optional<Doubt> about(Signal signal, Window window, Recording recording, Words words) {
        Optional<Doubt> lost = lost(signal, window, recording, words);
        if (lost.isPresent()) {
            return lost;
        }
        if (signal instanceof Signal.Wire wire) {
            return recording
                    .switched(wire)
                    .map(switched -> untold(wire, switched.edges().fromUs(), window, words))
                    .orElseGet(() -> Optional.of(notCarried(signal)));
        }
        Optional<Sampled> sampled = recording.sampled(signal);
        return sampled.isEmpty() ? Optional.of(notCarried(signal)) : aboutSamples(signal, sampled.get(), window, words);
    }

    /** Reports of it that were lost in that stretch, if any were. */
    static Optional<Doubt> lost(Signal signal, Window window, Recording recording, Words words) {
        for (Window lost : recording.lost(signal)) {
            if (lost.fromUs() <= window.toUs() && lost.toUs() >= window.fromUs()) {
                return Optional.of(new Doubt(
                        "reports of " + signal.spoken() + " were lost for " + words.time(lost.toUs() - lost.fromUs()),
                        "see to the bench's link and run it again"));
            }
        }
        return Optional.empty();
    }

    /** How a wire was before its level was told first, nobody knows. */
    private static Optional<Doubt> untold(Signal.Wire wire, long toldUs, Window window, Words words) {
        return toldUs <= window.fromUs()
                ? Optional.empty()
                : Optional.of(new Doubt(
                        "nothing was told of " + wire.spoken() + " for the first "
                                + words.time(toldUs - window.fromUs()),
                        "see that the bench tells the levels of its wires when a run begins"));
    }

    private static Doubt notCarried(Signal signal) {
        return new Doubt(
                "the bench reported nothing of " + signal.spoken(), "give it a point and a stream in the bench file");
    }

    private static Optional<Doubt> aboutSamples(Signal signal, Sampled sampled, Window window, Words words) {
        Trace trace = sampled.trace();
        int samples = trace.firstAtOrAfter(window.toUs() + 1) - trace.firstAtOrAfter(window.fromUs());
        long due = sampled.everyUs() == 0 ? 1 : (window.toUs() - window.fromUs()) / sampled.everyUs();
        if (samples == 0 || samples < SAMPLES_LEAST_SHARE * due) {
            return Optional.of(new Doubt(
                    "only " + samples + " samples of " + signal.spoken() + " came where " + due + " were due",
                    "look at the bench's stream"));
        }
        return hole(signal, sampled, window, words).or(() -> transducer(signal, sampled, window, words));
    }

    /** A stretch without samples of which the bench did not say that they were lost. */
    private static Optional<Doubt> hole(Signal signal, Sampled sampled, Window window, Words words) {
        Trace trace = sampled.trace();
        long mostUs = longestStepUs(sampled);
        int from = trace.firstAtOrAfter(window.fromUs());
        int to = trace.firstAtOrAfter(window.toUs() + 1);
        long longestUs = to == trace.size() ? window.toUs() - trace.timeUs(to - 1) : 0;
        longestUs = Math.max(longestUs, trace.longestStepUs(Math.max(1, from) - 1, Math.min(to + 1, trace.size())));
        return longestUs <= mostUs
                ? Optional.empty()
                : Optional.of(new Doubt(
                        "no samples of " + signal.spoken() + " came for " + words.time(longestUs),
                        "look at the bench's stream"));
    }

    /** A longer step between samples of that channel is a hole, in µs. */
    static long longestStepUs(Sampled sampled) {
        return Math.max(INTERVALS_GREATEST * sampled.everyUs(), Watched.WIDTH_US);
    }

    /** What its samples there say against the transducer itself; never about a stretch without samples. */
    static Optional<Doubt> transducer(Signal signal, Sampled sampled, Window window, Words words) {
        Trace trace = sampled.trace();
        int from = trace.firstAtOrAfter(window.fromUs());
        int to = trace.firstAtOrAfter(window.toUs() + 1);
        if (from >= to) {
            return Optional.empty();
        }
        double share = atEnds(sampled, from, to) / (double) (to - from);
        if (share > AT_END_GREATEST_SHARE) {
            return Optional.of(
                    atEnd(signal, Samples.of(trace, window).orElseThrow().mean(), words));
        }
        return Standstill.in(sampled, window)
                .map(still -> new Doubt(
                        "the transducer of " + signal.spoken() + " gave the same count " + still.samples()
                                + " times over and looks dead",
                        "check it and its wiring"));
    }

    /** Of a signal that stood there. */
    static Doubt atEnd(Signal signal, double value, Words words) {
        return new Doubt(
                signal.spoken() + " stood at the end of its transducer's range, "
                        + words.value(value, signal.dimension()),
                "use a transducer whose range goes further");
    }

    /** Whether the end of the range may have cut off an extreme, the highest or the lowest, found at that time. */
    static Optional<Doubt> cutOff(Signal signal, Sampled sampled, boolean highest, long atUs, Words words) {
        return stood(signal, sampled, highest, new Window(atUs - Watched.WIDTH_US, atUs + Watched.WIDTH_US), words);
    }

    /** Whether a sample stood at that end of the range, the upper or the lower. */
    private static Optional<Doubt> stood(Signal signal, Sampled sampled, boolean upper, Window window, Words words) {
        return Samples.of(sampled.trace(), window)
                .map(samples -> upper ? samples.greatest() : samples.least())
                .filter(value -> upper ? value >= sampled.highEnd() : value <= sampled.lowEnd())
                .map(value -> atEnd(signal, value, words));
    }

    /** Whether it may have cut off one of those that matter, the highest or the lowest. */
    static Optional<Doubt> cutOff(
            Signal signal, Sampled sampled, Extremes extremes, boolean highest, boolean lowest, Words words) {
        Optional<Doubt> high = highest ? cutOff(signal, sampled, true, extremes.greatestUs(), words) : Optional.empty();
        return high.isPresent() || !lowest ? high : cutOff(signal, sampled, false, extremes.leastUs(), words);
    }

    /** Whether it may have cut off one to whose side the limit has an end. */
    static Optional<Doubt> cutOff(Signal signal, Sampled sampled, Extremes extremes, Limit limit, Words words) {
        return cutOff(
                signal,
                sampled,
                extremes,
                limit.upper().isPresent(),
                limit.lower().isPresent(),
                words);
    }

    /** Whether it may have cut off a movement: samples stood at an end for so long, in µs, one after the other. */
    static Optional<Doubt> cutOff(Signal signal, Sampled sampled, Window window, long longUs, Words words) {
        Trace trace = sampled.trace();
        int from = trace.firstAtOrAfter(window.fromUs());
        int to = trace.firstAtOrAfter(window.toUs() + 1);
        if (atEnds(sampled, from, to) == 0) {
            return Optional.empty();
        }
        int since = from;
        for (int i = from; i < to; i++) {
            if (!sampled.atEnd(trace.value(i))) {
                since = i + 1;
            } else if (trace.timeUs(i) - trace.timeUs(since) >= longUs) {
                return Optional.of(atEnd(signal, trace.value(i), words));
            }
        }
        return Optional.empty();
    }

    /** Whether a level that lies beyond the range may have been passed: samples stood at that end of it. */
    static Optional<Doubt> beyond(Signal signal, double level, Recording recording, Window window, Words words) {
        return recording
                .sampled(signal)
                .filter(sampled -> sampled.atEnd(level))
                .flatMap(sampled -> stood(signal, sampled, level >= sampled.highEnd(), window, words));
    }

    private static int atEnds(Sampled sampled, int from, int to) {
        Trace trace = sampled.trace();
        if (trace.bounds(from, to).within(sampled.lowEnd(), sampled.highEnd())) {
            return 0;
        }
        int count = 0;
        for (int i = from; i < to; i++) {
            count += sampled.atEnd(trace.value(i)) ? 1 : 0;
        }
        return count;
    }
}
