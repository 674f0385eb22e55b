package dev.lapwing.measure;

import dev.lapwing.finding.Limit;
import dev.lapwing.finding.Mark;
import dev.lapwing.measure.Always.Case;
import dev.lapwing.naming.PressureKind;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.PlannedCondition;
import dev.lapwing.plan.Throughout;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.Unit;
import dev.lapwing.sequence.AlwaysProperty;
import dev.lapwing.signal.CrossingSearch;
import dev.lapwing.signal.Edges;
import dev.lapwing.signal.Samples;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Estimate;
import dev.lapwing.uncertainty.Input;
import dev.lapwing.uncertainty.Instrument;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/** Always-on properties that are told by wires: each measured as the longest time for which it was not so. */
final class AlwaysWires {
    /** A pipe that has fallen by so much is being dumped: 5 psi in Pa. Common practice, no source. */
    private static final double DUMP_FALL = Unit.PSI.toBase(5);

    private static final List<Signal> STAGES =
            List.of(new Signal.Wire("warning-sounder"), new Signal.Wire("warning-light"));

    private final Always run;

    AlwaysWires(Always run) {
        this.run = run;
    }

    /**
     * Of {@link AlwaysProperty#APPLICATION_ONLY_WITH_HOLDING}: application on with holding off, but for when the bench
     * feeds the application wire from another cab.
     */
    Optional<Case> application(Throughout throughout) {
        Optional<List<Window>> application = run.on("application");
        Optional<List<Window>> holding = run.on("holding");
        if (application.isEmpty() || holding.isEmpty() || application.get().isEmpty()) {
            return Optional.empty();
        }
        List<Window> fed = run.during(run.driven().on("wire-feed/application"));
        List<Window> alone = Stretches.both(Stretches.both(application.get(), run.not(holding.get())), run.not(fed));
        return longest(
                throughout,
                0,
                alone,
                "longest time of application without holding",
                List.of(new Signal.Wire("application"), new Signal.Wire("holding")),
                0,
                Optional.empty());
    }

    /**
     * Of {@link AlwaysProperty#NO_TRACTION_WITHOUT_DEADMAN}: traction on with the deadman released and a direction
     * selected.
     */
    Optional<Case> traction(Throughout throughout) {
        List<Window> direction = run.during(
                either(run.driven().on("reverser/forward"), run.driven().on("reverser/reverse")));
        List<Window> released = Stretches.both(run.not(run.during(run.driven().on("deadman"))), direction);
        Optional<List<Window>> traction = run.on("traction");
        if (released.isEmpty() || traction.isEmpty()) {
            return Optional.empty();
        }
        List<Window> wrong = Stretches.both(traction.get(), released);
        long stimulus = wrong.stream()
                .mapToLong(stretch -> run.driven().stampBoundUs(stretch.fromUs()))
                .max()
                .orElse(0);
        return longest(
                throughout,
                0,
                wrong,
                "longest time of traction after the deadman was released",
                List.of(new Signal.Wire("traction")),
                stimulus,
                Optional.empty());
    }

    /**
     * Of {@link AlwaysProperty#LAMP_ONLY_WITH_SUPPLY}: the lamp lit with the EP supply, measured, below what is usable.
     */
    Optional<Case> lamp(Throughout throughout) {
        Optional<List<Window>> lit = run.on("ep-supply-lamp");
        Limit usable = Always.figure(throughout, 0);
        double volts = usable.upper().orElseThrow()
                * (usable.dimension() == Dimension.NOMINAL_SHARE
                        ? run.plan().wiring().nominalVolts()
                        : 1);
        Signal supply = new Signal.SupplyVoltage("ep");
        if (lit.isEmpty()
                || lit.get().isEmpty()
                || run.recording().sampled(supply).isEmpty()) {
            return Optional.empty();
        }
        ConditionWatch low = ConditionWatch.of(
                new PlannedCondition.Below(supply, volts), run.run().fromUs(), run.recording());
        low.advance();
        List<Window> without = low.truth().map(run::during).orElse(List.of());
        return longest(
                throughout,
                1,
                Stretches.both(lit.get(), without),
                "longest time of the lamp lit without a usable supply",
                List.of(new Signal.Wire("ep-supply-lamp"), supply),
                0,
                Optional.of(low));
    }

    /**
     * Of {@link AlwaysProperty#VIGILANCE_STAGES_IN_ORDER}: light, then sounder, then dump, each within its time of the
     * one before.
     */
    Optional<Case> vigilance(Throughout throughout) {
        Optional<Edges> light = run.edges("warning-light");
        Optional<Edges> sounder = run.edges("warning-sounder");
        if (light.isEmpty() || sounder.isEmpty()) {
            return Optional.empty();
        }
        List<Signal> reads = new ArrayList<>(STAGES);
        run.pressures(PressureKind.BRAKE_PIPE).stream().findFirst().ifPresent(reads::add);
        List<Window> deadman = run.not(run.during(run.driven().on("deadman")));
        List<Window> stages = new ArrayList<>();
        for (Window lit : Stretches.of(light.get(), run.run())) {
            stages.add(until(lit, firstOn(sounder.get(), lit)));
        }
        for (Window sounding : Stretches.of(sounder.get(), run.run())) {
            boolean ofDeadman = deadman.stream().anyMatch(d -> d.holds(sounding.fromUs()));
            if (ofDeadman) {
                continue;
            }
            if (!light.get().at(sounding.fromUs() - 1)) {
                return Optional.of(outOfOrder(throughout, sounding));
            }
            stages.add(until(sounding, fallOfPipe(sounding)));
        }
        return stages.isEmpty()
                ? Optional.empty()
                : longest(throughout, 0, stages, "longest time of a stage of vigilance", reads, 0, Optional.empty());
    }

    private Case outOfOrder(Throughout throughout, Window sounding) {
        String quantity = "order of the stages of vigilance";
        Window before = new Window(run.run().fromUs(), sounding.fromUs());
        Optional<Doubt> unseen = lost(STAGES, before);
        if (unseen.isPresent()) {
            return new Case(unseen.get().of(quantity, before), Always.figure(throughout, 0));
        }
        Mark mark = new Mark("wire/warning-sounder", sounding.fromUs(), 1, "sounder without light");
        return new Case(
                new Measurement.NeverHappened(
                        "the sounder came on without the light before it",
                        Optional.empty(),
                        0,
                        quantity,
                        List.of(mark),
                        run.run()),
                Always.figure(throughout, 0));
    }

    private static Window until(Window stage, long endUs) {
        return new Window(stage.fromUs(), Math.max(stage.fromUs(), Math.min(stage.toUs(), endUs)));
    }

    private static long firstOn(Edges edges, Window window) {
        return Stretches.of(edges, window).stream()
                .mapToLong(Window::fromUs)
                .min()
                .orElse(Long.MAX_VALUE);
    }

    /** When the pipe began to be dumped, at the latest; by its fall at the vehicle nearest the cab. */
    private long fallOfPipe(Window sounding) {
        return run.pressures(PressureKind.BRAKE_PIPE).stream()
                .findFirst()
                .map(signal -> {
                    Sampled pipe = run.recording().sampled(signal).orElseThrow();
                    double before = Samples.of(
                                    pipe.trace(), new Window(sounding.fromUs() - Watched.WIDTH_US, sounding.fromUs()))
                            .map(Samples::mean)
                            .orElse(0.0);
                    CrossingSearch search = new CrossingSearch(
                            pipe.trace(),
                            before - DUMP_FALL,
                            false,
                            sounding,
                            Channels.sampleNoise(pipe.instrument()),
                            pipe.everyUs());
                    search.advance(sounding.toUs(), true);
                    return search.found()
                            .map(at -> sounding.fromUs() + Math.round(at.seconds() * 1e6))
                            .orElse(Long.MAX_VALUE);
                })
                .orElse(Long.MAX_VALUE);
    }

    private static Edges either(Edges one, Edges other) {
        List<Long> times = new ArrayList<>();
        for (int i = 0; i < one.size(); i++) {
            times.add(one.timeUs(i));
        }
        for (int i = 0; i < other.size(); i++) {
            times.add(other.timeUs(i));
        }
        times.sort(Comparator.naturalOrder());
        Edges both = new Edges(one.at(Long.MIN_VALUE) || other.at(Long.MIN_VALUE), Long.MIN_VALUE);
        times.forEach(us -> both.append(us, one.at(us) || other.at(us)));
        return both;
    }

    /** @param reads what it is told by, the wire first that it is drawn at */
    private Optional<Case> longest(
            Throughout throughout,
            int figure,
            List<Window> wrong,
            String quantity,
            List<Signal> reads,
            long stimulusUs,
            Optional<ConditionWatch> from) {
        Signal.Wire signal = (Signal.Wire) reads.get(0);
        Optional<Window> worst = wrong.stream().max(Comparator.comparingDouble(Window::seconds));
        double seconds = worst.map(Window::seconds).orElse(0.0);
        Instrument instrument = run.recording().switched(signal).orElseThrow().instrument();
        List<Component> parts = new ArrayList<>();
        if (seconds > 0) {
            // One end may be of another wire; its stamps are taken to be as good.
            Input stamp = Input.within(instrument.stampBoundUs() * 1e-6, Dimension.TIME);
            parts.add(Component.of("stamp/" + instrument.point() + "/start", 1, stamp));
            parts.add(Component.of("stamp/" + instrument.point() + "/end", 1, stamp));
            parts.add(Timing.stimulus(stimulusUs, 1));
            parts.add(Timing.clock(instrument, seconds));
            Window longest = worst.orElseThrow();
            from.ifPresent(condition -> {
                parts.addAll(Derived.scaled(condition.doubts(longest.fromUs(), 0), -1));
                parts.addAll(condition.doubts(longest.toUs(), seconds));
            });
        }
        Estimate estimate = new Estimate(seconds, Dimension.TIME, parts);
        List<Mark> marks = worst.filter(w -> w.seconds() > 0)
                .map(w -> List.of(
                        new Mark(signal.key(), w.fromUs(), 1, "from here"),
                        new Mark(signal.key(), w.toUs(), 0, "to here")))
                .orElse(List.of());
        Limit limit = Always.figure(throughout, figure);
        boolean failing = limit.margin(seconds) < -estimate.expanded();
        Optional<Doubt> doubt = failing
                ? lost(reads, worst.orElseThrow()).or(() -> dead(reads, worst.orElseThrow()))
                : reads.stream()
                        .flatMap(read -> Doubt.about(read, run.run(), run.recording(), run.words()).stream())
                        .findFirst();
        Measurement measurement = doubt.<Measurement>map(d -> d.of(quantity, run.run()))
                .orElseGet(() -> new Measurement.Measured(estimate, quantity, marks, worst.orElse(run.run())));
        return Optional.of(new Case(measurement, limit));
    }

    /** What fails by the word of a dead transducer is no failure of the unit. */
    private Optional<Doubt> dead(List<Signal> reads, Window window) {
        return reads.stream()
                .flatMap(read -> run.recording().sampled(read).stream()
                        .flatMap(sampled -> Doubt.transducer(read, sampled, window, run.words()).stream()))
                .findFirst();
    }

    private Optional<Doubt> lost(List<Signal> reads, Window window) {
        return reads.stream()
                .flatMap(read -> Doubt.lost(read, window, run.recording(), run.words()).stream())
                .findFirst();
    }
}
