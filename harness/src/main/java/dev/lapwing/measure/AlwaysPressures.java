package dev.lapwing.measure;

import dev.lapwing.finding.Limit;
import dev.lapwing.finding.Mark;
import dev.lapwing.measure.Always.Case;
import dev.lapwing.naming.PressureKind;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Throughout;
import dev.lapwing.quantity.Unit;
import dev.lapwing.sequence.AlwaysProperty;
import dev.lapwing.signal.Extremes;
import dev.lapwing.signal.MovingMean;
import dev.lapwing.signal.Rise;
import dev.lapwing.signal.StraightLine;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Estimate;
import dev.lapwing.uncertainty.Input;
import dev.lapwing.uncertainty.Instrument;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Always-on properties that are told by pressures. */
final class AlwaysPressures {
    /**
     * What the pipe levels out by itself after anything was driven is over by then, in µs; long for twelve vehicles.
     * Common practice, no source.
     */
    private static final long REDISTRIBUTION_US = 5_000_000;

    /** Gas that was warmed by a quick fill has cooled by then, in µs. Common practice, no source. */
    private static final long THERMAL_US = 60_000_000;

    /** A slope over less says little, in µs. */
    private static final long SLOPE_LEAST_US = 10_000_000;
    /** Time that the EP brake is given to release, in µs. */
    private static final long RELEASE_US = 10_000_000;
    /** A pipe so near its highest, in Pa (1 psi), has released every triple valve: no reservoir is ever above that. */
    private static final double NEAR_HIGHEST = Unit.PSI.toBase(1);

    private final Always run;

    AlwaysPressures(Always run) {
        this.run = run;
    }

    /** Of {@link AlwaysProperty#CYLINDER_BELOW_LIMIT}: highest of each cylinder. */
    List<Case> cylinder(Throughout throughout) {
        Limit limit = Always.figure(throughout, 0);
        List<Measurement> found = new ArrayList<>();
        for (Signal signal : run.pressures(PressureKind.BRAKE_CYLINDER)) {
            found.add(highest(signal, run.run(), "highest " + signal.spoken(), limit));
        }
        return cases(found, limit);
    }

    /**
     * Of {@link AlwaysProperty#EP_RELEASE_EMPTIES_THE_CYLINDER}: highest cylinder where the automatic brake is released
     * and no EP brake was asked for 10 s.
     */
    List<Case> release(Throughout throughout) {
        Limit limit = Always.figure(throughout, 0);
        List<Window> asked = run.handleAt("release");
        for (String wire : List.of("application", "holding")) {
            asked = Stretches.both(asked, run.off(wire));
        }
        List<Measurement> found = new ArrayList<>();
        for (Signal signal : run.pressures(PressureKind.BRAKE_CYLINDER)) {
            Optional<Signal> pipe = pipe(((Signal.Pressure) signal).vehicle());
            List<Window> releases = pipe.map(this::nearHighest).orElse(List.of());
            for (Window quiet : Stretches.both(asked, releases)) {
                if (quiet.toUs() - quiet.fromUs() > RELEASE_US + Watched.WIDTH_US) {
                    Window after = new Window(quiet.fromUs() + RELEASE_US, quiet.toUs());
                    String quantity = "highest released " + signal.spoken();
                    found.add(dead(pipe.orElseThrow(), quiet)
                            .<Measurement>map(doubt -> doubt.of(quantity, after))
                            .orElseGet(() -> highest(signal, after, quantity, limit)));
                }
            }
        }
        return cases(found, limit);
    }

    /** The brake pipe of that vehicle, or the nearest to the cab that is read. */
    private Optional<Signal> pipe(int vehicle) {
        List<Signal> pipes = run.pressures(PressureKind.BRAKE_PIPE);
        return pipes.stream()
                .filter(p -> ((Signal.Pressure) p).vehicle() == vehicle)
                .findFirst()
                .or(() -> pipes.stream().findFirst());
    }

    /** What speaks against the transducer by which a stretch was told. */
    private Optional<Doubt> dead(Signal signal, Window window) {
        return run.recording()
                .sampled(signal)
                .flatMap(sampled -> Doubt.transducer(signal, sampled, window, run.words()));
    }

    /** Where that pipe is within a little of the highest it ever was. */
    private List<Window> nearHighest(Signal pipe) {
        Sampled sampled = run.recording().sampled(pipe).orElseThrow();
        MovingMean mean =
                new MovingMean(sampled.trace(), Watched.WIDTH_US, run.run().fromUs());
        List<Window> found = new ArrayList<>();
        double highest = Double.NEGATIVE_INFINITY;
        long since = Long.MIN_VALUE;
        long last = run.run().fromUs();
        while (mean.advance(run.run().toUs())) {
            highest = Math.max(highest, mean.value());
            boolean near = mean.value() >= highest - NEAR_HIGHEST;
            last = mean.timeUs();
            if (near && since == Long.MIN_VALUE) {
                since = last;
            } else if (!near && since != Long.MIN_VALUE) {
                found.add(new Window(since, last));
                since = Long.MIN_VALUE;
            }
        }
        if (since != Long.MIN_VALUE) {
            found.add(new Window(since, last));
        }
        return found;
    }

    private Measurement highest(Signal signal, Window window, String quantity, Limit limit) {
        Sampled sampled = run.recording().sampled(signal).orElseThrow();
        Optional<Extremes> extremes = Extremes.of(sampled.trace(), window, Watched.WIDTH_US);
        if (extremes.isEmpty()) {
            return new Doubt("there are no samples of " + signal.spoken(), "look at the bench's stream")
                    .of(quantity, window);
        }
        double value = extremes.get().greatest();
        Estimate estimate = Stays.extreme(sampled, signal.dimension(), extremes.get(), value, window);
        Mark mark = new Mark(
                signal.key(),
                extremes.get().greatestUs(),
                value,
                "highest " + run.words().value(value, signal.dimension()));
        Measurement.Measured highest = new Measurement.Measured(estimate, quantity, List.of(mark), window);
        Optional<Doubt> cutOff = outside(highest, limit)
                ? Optional.empty()
                : Doubt.cutOff(signal, sampled, true, mark.timeUs(), run.words());
        return cutOff.<Measurement>map(doubt -> doubt.of(quantity, window))
                .orElseGet(() -> trusted(signal, window, highest, limit));
    }

    /**
     * Of {@link AlwaysProperty#NO_CHARGE_OUT_OF_RELEASE}: greatest rise of the pipe where nothing may charge it.
     */
    List<Case> charge(Throughout throughout) {
        Limit limit = Always.figure(throughout, 0);
        List<Window> off = run.not(run.during(run.driven().on("master-switch")));
        List<Window> beyond = run.handleFrom("lap");
        List<Window> cut = union(off, beyond);
        for (String other : run.driven().keys("other-cab-charge/")) {
            cut = Stretches.both(cut, run.not(run.during(run.driven().on(other))));
        }
        List<Measurement> found = new ArrayList<>();
        for (Window quiet : settled(cut, REDISTRIBUTION_US)) {
            for (Signal signal : run.pressures(PressureKind.BRAKE_PIPE)) {
                rise(signal, quiet, limit).ifPresent(found::add);
            }
        }
        return cases(found, limit);
    }

    private Optional<Measurement> rise(Signal signal, Window window, Limit limit) {
        Sampled sampled = run.recording().sampled(signal).orElseThrow();
        Optional<Rise> greatest = Rise.of(sampled.trace(), window, Watched.WIDTH_US);
        return greatest.map(rise -> {
            Instrument instrument = sampled.instrument();
            double one = instrument.noise() / Math.sqrt(rise.averaged());
            double independent = Math.max(1, rise.means() / (double) rise.averaged());
            String key = instrument.point() + "/" + Words.span(window);
            // Both ends are extremes of as many means; see Stays.
            List<Component> parts = new ArrayList<>(
                    Systematic.change(rise.from(), rise.from() + rise.value(), instrument, signal.dimension()));
            parts.add(Component.of(
                    "noise/" + key,
                    Math.sqrt(2 + 4 * StrictMath.log(independent) / 3),
                    Input.stated(one, signal.dimension())));
            parts.add(Component.of(
                    "resolution/" + key, Math.sqrt(2), Input.within(instrument.resolution() / 2, signal.dimension())));
            Estimate estimate = new Estimate(rise.value(), signal.dimension(), parts);
            List<Mark> marks = rise.value() == 0
                    ? List.of()
                    : List.of(
                            new Mark(signal.key(), rise.fromUs(), rise.from(), "rises from here"),
                            new Mark(signal.key(), rise.toUs(), rise.from() + rise.value(), "to here"));
            String quantity = "greatest rise of " + signal.spoken() + " with nothing to charge it";
            return trusted(signal, window, new Measurement.Measured(estimate, quantity, marks, window), limit);
        });
    }

    /** Of {@link AlwaysProperty#CYLINDER_HOLDS_IN_LAP}: quickest fall of a cylinder in lap. */
    List<Case> lap(Throughout throughout) {
        Limit limit = Always.figure(throughout, 0);
        List<Window> lapped = run.handleAt("lap");
        List<Window> still = Stretches.both(lapped, run.off("application"));
        List<Measurement> found = new ArrayList<>();
        for (Window quiet : settled(still, THERMAL_US)) {
            if (quiet.toUs() - quiet.fromUs() < SLOPE_LEAST_US) {
                continue;
            }
            for (Signal signal : run.pressures(PressureKind.BRAKE_CYLINDER)) {
                Sampled sampled = run.recording().sampled(signal).orElseThrow();
                StraightLine.of(sampled.trace(), quiet, quiet.fromUs()).ifPresent(line -> {
                    Estimate fall = Slopes.rateOfFall(line, sampled.instrument(), quiet);
                    List<Mark> marks = List.of(
                            new Mark(signal.key(), quiet.fromUs(), line.at(0), "start of the fitted line"),
                            new Mark(signal.key(), quiet.toUs(), line.at(quiet.seconds()), "end of the fitted line"));
                    String quantity = "rate of fall of " + signal.spoken() + " in lap";
                    found.add(trusted(signal, quiet, new Measurement.Measured(fall, quantity, marks, quiet), limit));
                });
            }
        }
        return cases(found, limit);
    }

    /** The stretches, each cut into pieces that begin so long after its start and after anything driven in it. */
    private List<Window> settled(List<Window> stretches, long afterUs) {
        List<Window> found = new ArrayList<>();
        for (Window stretch : stretches) {
            long from = stretch.fromUs();
            for (long change : run.driven().changesUs()) {
                if (change > from && change <= stretch.toUs()) {
                    piece(from + afterUs, change - 1).ifPresent(found::add);
                    from = change;
                } else if (change == from) {
                    from = change;
                }
            }
            piece(from + afterUs, stretch.toUs()).ifPresent(found::add);
        }
        return found;
    }

    private static Optional<Window> piece(long fromUs, long toUs) {
        return fromUs < toUs ? Optional.of(new Window(fromUs, toUs)) : Optional.empty();
    }

    private List<Window> union(List<Window> one, List<Window> other) {
        return run.not(Stretches.both(run.not(one), run.not(other)));
    }

    private Measurement trusted(Signal signal, Window window, Measurement.Measured measured, Limit limit) {
        Optional<Doubt> doubt = outside(measured, limit)
                ? Doubt.transducer(
                        signal, run.recording().sampled(signal).orElseThrow(), about(measured, window), run.words())
                : Doubt.about(signal, window, run.recording(), run.words());
        return doubt.<Measurement>map(d -> d.of(measured.quantity(), window)).orElse(measured);
    }

    private static boolean outside(Measurement.Measured measured, Limit limit) {
        return limit.margin(measured.estimate().value()) < -measured.estimate().expanded();
    }

    private static Window about(Measurement.Measured measured, Window window) {
        return measured.marks().size() == 1
                ? Stays.about(measured.marks().get(0).timeUs())
                : window;
    }

    static List<Case> cases(List<Measurement> found, Limit limit) {
        return found.stream().map(measurement -> new Case(measurement, limit)).toList();
    }
}
