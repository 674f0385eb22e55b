package dev.lapwing.measure;

import dev.lapwing.naming.Signal;
import dev.lapwing.signal.Spans;
import dev.lapwing.signal.Trace;
import dev.lapwing.signal.Window;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.LongStream;

/**
 * When the signals of a condition were not seen in a window: what was lost, and holes in the samples. What is asked of
 * the condition is then worked out twice, with all of it at its best and at its worst.
 *
 * @param bySignal stretches by signal; a signal that was seen throughout has none
 * @param above    stretches in which it stood at the upper end of its range and may have been above
 * @param below    the same of the lower end
 */
record Unseen(Map<Signal, Spans> bySignal, Map<Signal, Spans> above, Map<Signal, Spans> below) {
    static final Unseen NOTHING = new Unseen(Map.of(), Map.of(), Map.of());

    /** Only what of that signal stood at an end of its range; empty if nothing did. */
    static Optional<Unseen> atEnds(Signal signal, Window window, Recording recording) {
        Unseen atEnds = new Unseen(Map.of(), new LinkedHashMap<>(), new LinkedHashMap<>());
        recording.sampled(signal).ifPresent(sampled -> {
            put(atEnds.above, signal, atEnd(sampled, window, true));
            put(atEnds.below, signal, atEnd(sampled, window, false));
        });
        return atEnds.above.isEmpty() && atEnds.below.isEmpty() ? Optional.empty() : Optional.of(atEnds);
    }

    private static void put(Map<Signal, Spans> into, Signal signal, Spans spans) {
        if (spans.size() > 0) {
            into.put(signal, spans);
        }
    }

    /** As far about such samples as a mean reaches. */
    private static Spans atEnd(Sampled sampled, Window window, boolean high) {
        Trace trace = sampled.trace();
        int from = trace.firstAtOrAfter(window.fromUs() - Watched.WIDTH_US);
        int to = trace.firstAtOrAfter(window.toUs() + Watched.WIDTH_US + 1);
        if (from >= to || trace.bounds(from, to).within(sampled.lowEnd(), sampled.highEnd())) {
            return Spans.of();
        }
        LongStream.Builder pairs = LongStream.builder();
        long lastUs = 0;
        boolean there = false;
        for (int i = from; i < to; i++) {
            boolean atEnd = high ? trace.value(i) >= sampled.highEnd() : trace.value(i) <= sampled.lowEnd();
            if (atEnd && !there) {
                pairs.add(trace.timeUs(i) - Watched.WIDTH_US);
            } else if (there && !atEnd) {
                pairs.add(lastUs + Watched.WIDTH_US + 1);
            }
            there = atEnd;
            lastUs = trace.timeUs(i);
        }
        if (there) {
            pairs.add(lastUs + Watched.WIDTH_US + 1);
        }
        return Spans.of(pairs.build().toArray());
    }

    static Unseen in(Window window, List<Signal> signals, Recording recording) {
        Map<Signal, Spans> unseen = new LinkedHashMap<>();
        for (Signal signal : signals) {
            List<Window> holes = new ArrayList<>(recording.lost(signal));
            recording.sampled(signal).ifPresent(sampled -> holes.addAll(holes(sampled, window)));
            if (signal instanceof Signal.Wire wire) {
                recording.switched(wire).ifPresent(switched -> holes.addAll(untold(switched, window)));
            }
            long[] pairs = holes.stream()
                    .filter(hole -> hole.fromUs() <= window.toUs() && hole.toUs() >= window.fromUs())
                    .sorted(Comparator.comparingLong(Window::fromUs))
                    .flatMapToLong(hole -> LongStream.of(hole.fromUs(), hole.toUs() + 1))
                    .toArray();
            if (pairs.length > 0) {
                unseen.put(signal, Spans.of(pairs));
            }
        }
        return new Unseen(unseen, Map.of(), Map.of());
    }

    /** Until its level was told first. */
    private static List<Window> untold(Switched switched, Window window) {
        long toldUs = switched.edges().fromUs();
        return toldUs <= window.fromUs() ? List.of() : List.of(new Window(window.fromUs(), toldUs - 1));
    }

    private static List<Window> holes(Sampled sampled, Window window) {
        Trace trace = sampled.trace();
        long mostUs = Doubt.longestStepUs(sampled);
        List<Window> holes = new ArrayList<>();
        int from = Math.max(1, trace.firstAtOrAfter(window.fromUs()));
        long beforeUs = trace.size() == 0 ? window.fromUs() : trace.timeUs(from - 1);
        for (int i = from; i < trace.size() && beforeUs <= window.toUs(); i++) {
            if (trace.timeUs(i) - beforeUs > mostUs) {
                holes.add(new Window(beforeUs, trace.timeUs(i)));
            }
            beforeUs = trace.timeUs(i);
        }
        if (beforeUs + mostUs < window.toUs()) {
            holes.add(new Window(beforeUs, window.toUs()));
        }
        return holes;
    }

    boolean nothing() {
        return bySignal.isEmpty() && above.isEmpty() && below.isEmpty();
    }

    Optional<Spans> of(Signal signal) {
        return Optional.ofNullable(bySignal.get(signal));
    }
}
