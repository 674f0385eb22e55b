package dev.lapwing.measure;

import dev.lapwing.finding.Limit;
import dev.lapwing.finding.Mark;
import dev.lapwing.measure.Always.Case;
import dev.lapwing.naming.DesignOption;
import dev.lapwing.naming.PressureKind;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Throughout;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.Unit;
import dev.lapwing.sequence.AlwaysProperty;
import dev.lapwing.signal.CrossingSearch;
import dev.lapwing.signal.Extremes;
import dev.lapwing.signal.LevelCrossing;
import dev.lapwing.signal.MovedLevel;
import dev.lapwing.signal.Samples;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Estimate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Of {@link AlwaysProperty#DUMP_EMPTIES_THE_PIPE}: after the handle went to emergency, or an instant deadman was
 * released with a direction selected, the brake pipe empties in time at every vehicle and stays empty as long as the
 * handle, or the deadman, stays so. Only where nothing else decides over the pipe: master switch on, every cock of the
 * pipe open, no other cab charging. A time that ends before the limit is over proves nothing.
 */
final class AlwaysDumps {
    /** A pipe must start so much above the level, in Pa (10 psi), for its emptying to be measured. */
    private static final double START_ABOVE = Unit.PSI.toBase(10);
    /** A direction counts as selected in order if the pipe stood at this share of its highest of the run. */
    private static final double CHARGED_SHARE = 0.9;

    private final Always run;

    AlwaysDumps(Always run) {
        this.run = run;
    }

    List<Case> dump(Throughout throughout) {
        Limit time = Always.figure(throughout, 0);
        Limit level = Always.figure(throughout, 1);
        List<Measurement> times = new ArrayList<>();
        List<Measurement> rises = new ArrayList<>();
        for (Window dump : dumps()) {
            for (Signal signal : run.pressures(PressureKind.BRAKE_PIPE)) {
                empties(signal, dump, time, level, times, rises);
            }
        }
        List<Case> cases = new ArrayList<>(AlwaysPressures.cases(rises, level));
        cases.addAll(AlwaysPressures.cases(times, time));
        return cases;
    }

    private List<Window> dumps() {
        List<Window> free = run.during(run.driven().on("master-switch"));
        List<String> others = new ArrayList<>(run.driven().keys("other-cab-charge/"));
        others.addAll(run.driven().keys("cock/brake-pipe"));
        for (String other : others) {
            free = Stretches.both(free, run.not(run.during(run.driven().on(other))));
        }
        List<Window> called = new ArrayList<>(run.handleFrom("emergency"));
        if (run.plan().wiring().design().is(DesignOption.DEADMAN_INSTANT)) {
            called.addAll(deadman());
        }
        List<Window> found = new ArrayList<>();
        for (Window call : called) {
            Stretches.both(List.of(call), free).stream()
                    .filter(dump -> dump.fromUs() == call.fromUs())
                    .forEach(found::add);
        }
        return found;
    }

    /** Releases of the deadman with a direction selected while it was held and the pipe was charged. */
    private List<Window> deadman() {
        List<Window> held = run.during(run.driven().on("deadman"));
        List<Window> found = new ArrayList<>();
        for (String direction : List.of("reverser/forward", "reverser/reverse")) {
            for (Window selected : run.during(run.driven().on(direction))) {
                boolean inOrder =
                        held.stream().anyMatch(h -> h.holds(selected.fromUs()) && h.fromUs() < selected.fromUs())
                                && charged(selected.fromUs());
                if (inOrder) {
                    Stretches.both(run.not(held), List.of(selected)).stream()
                            .filter(released -> released.fromUs() > selected.fromUs())
                            .forEach(found::add);
                }
            }
        }
        return found;
    }

    private boolean charged(long atUs) {
        return run.pressures(PressureKind.BRAKE_PIPE).stream().findFirst().stream()
                .anyMatch(signal -> {
                    Sampled pipe = run.recording().sampled(signal).orElseThrow();
                    Optional<Double> then = Samples.of(pipe.trace(), new Window(atUs - Watched.WIDTH_US, atUs))
                            .map(Samples::mean);
                    Optional<Double> highest = Extremes.of(pipe.trace(), run.run(), Watched.WIDTH_US)
                            .map(Extremes::greatest);
                    return then.isPresent() && highest.isPresent() && then.get() >= CHARGED_SHARE * highest.get();
                });
    }

    private void empties(
            Signal signal, Window dump, Limit time, Limit level, List<Measurement> times, List<Measurement> rises) {
        Sampled pipe = run.recording().sampled(signal).orElseThrow();
        double empty = level.upper().orElseThrow();
        String quantity = "time for " + signal.spoken() + " to empty after a dump";
        Window before = new Window(dump.fromUs() - Watched.WIDTH_US, dump.fromUs());
        Optional<Samples> standing = Samples.of(pipe.trace(), before);
        if (standing.isEmpty()) {
            Doubt.lost(signal, before, run.recording(), run.words())
                    .ifPresent(unseen -> times.add(unseen.of(quantity, dump)));
        }
        if (standing.filter(s -> s.mean() > empty + START_ABOVE).isEmpty()) {
            return;
        }
        CrossingSearch search = new CrossingSearch(
                pipe.trace(), empty, false, dump, Channels.sampleNoise(pipe.instrument()), pipe.everyUs());
        search.advance(dump.toUs(), true);
        Optional<Doubt> doubt = Doubt.about(signal, dump, run.recording(), run.words());
        if (search.found().isEmpty()) {
            if (dump.seconds() > time.upper().orElseThrow()) {
                times.add(doubt.<Measurement>map(d -> d.of(quantity, dump))
                        .orElseGet(() -> notYet(signal, pipe, dump, empty, quantity)));
            }
            return;
        }
        times.add(doubt.<Measurement>map(d -> d.of(quantity, dump))
                .orElseGet(() -> emptied(signal, pipe, dump, search.found().orElseThrow(), empty, time, quantity)));
        long sinceUs = dump.fromUs() + Math.round(search.found().get().seconds() * 1e6);
        rise(signal, pipe, new Window(Math.min(sinceUs, dump.toUs()), dump.toUs()), level)
                .ifPresent(rises::add);
    }

    private Measurement emptied(
            Signal signal, Sampled pipe, Window dump, LevelCrossing at, double empty, Limit limit, String quantity) {
        MovedLevel moved = Channels.moved(pipe, empty, false, dump, dump.toUs(), at);
        long bound = run.driven().stampBoundUs(dump.fromUs());
        Crossed time = CrossingTimes.crossed(signal, pipe, at, moved, List.of(), bound);
        long atUs = dump.fromUs() + Math.round(at.seconds() * 1e6);
        Mark mark =
                new Mark(signal.key(), atUs, empty, "empty after " + run.words().value(at.seconds(), Dimension.TIME));
        return new CrossedTime(quantity, limit, quantity, signal, pipe, dump).of(time, List.of(mark));
    }

    /** It took longer than the whole dump: that is the least that it took, unless it came too near to tell. */
    private Measurement notYet(Signal signal, Sampled pipe, Window dump, double empty, String quantity) {
        Extremes extremes = Extremes.of(pipe.trace(), dump, Watched.WIDTH_US).orElseThrow();
        double least = extremes.least();
        Estimate reached = Stays.extreme(pipe, signal.dimension(), extremes, least, dump);
        if (reached.value() - empty <= reached.expanded()) {
            return new Doubt(
                            signal.spoken() + " came no nearer than its uncertainty to "
                                    + run.words().value(empty, signal.dimension()) + ", "
                                    + run.words().estimate(reached),
                            "use a better transducer")
                    .of(quantity, dump);
        }
        Mark mark = new Mark(signal.key(), dump.toUs(), least, "not empty yet");
        Estimate estimate = Timing.sinceStimulus(dump.seconds(), 0, pipe.instrument(), List.of());
        return new Measurement.Measured(estimate, "least " + quantity + ", still unfinished", List.of(mark), dump);
    }

    /** Only what rose surely above the level again. */
    private Optional<Measurement> rise(Signal signal, Sampled pipe, Window after, Limit level) {
        Optional<Extremes> extremes = Extremes.of(pipe.trace(), after, Watched.WIDTH_US);
        if (extremes.isEmpty()) {
            return Optional.empty();
        }
        double value = extremes.get().greatest();
        Estimate estimate = Stays.extreme(pipe, signal.dimension(), extremes.get(), value, after);
        if (level.margin(estimate.value()) >= -estimate.expanded()) {
            return Optional.empty();
        }
        Mark mark = new Mark(signal.key(), extremes.get().greatestUs(), value, "filled again");
        return Optional.of(new Measurement.Measured(
                estimate, "highest " + signal.spoken() + " after it had emptied", List.of(mark), after));
    }
}
