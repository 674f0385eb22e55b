package dev.lapwing.measure;

import dev.lapwing.finding.Limit;
import dev.lapwing.naming.PressureKind;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Course;
import dev.lapwing.plan.Course.Trouble;
import dev.lapwing.plan.Plan;
import dev.lapwing.plan.Throughout;
import dev.lapwing.signal.Edges;
import dev.lapwing.signal.Trace;
import dev.lapwing.signal.Window;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/** Measures the always-on properties over a whole run, each wherever its precondition held. */
public final class Always {
    /** The handle counts as in a position within this, in degrees. */
    private static final double NEAR_DEGREES = 1;

    /** A bench tells how everything is within that time, in µs; what it tells of later was unknown until then. */
    private static final long BEGIN_US = 1_000_000;

    private final Plan plan;
    private final Recording recording;
    private final Driven driven;
    private final Words words;
    private final Window run;

    /**
     * One case of what a property speaks of; of a property of wires, the worst.
     *
     * @param measurement what was measured
     * @param limit       the figure that it is held against
     */
    public record Case(Measurement measurement, Limit limit) {}

    public Always(Plan plan, Recording recording, Course course, Words words) {
        this.plan = plan;
        this.recording = recording;
        this.driven = new Driven(plan.bench(), course);
        this.words = words;
        long endUs = course.troubles().stream()
                .filter(trouble -> trouble.kind() != Trouble.Kind.NOT_REACHED)
                .mapToLong(Trouble::atUs)
                .min()
                .orElse(course.endUs());
        long fromUs = firstUs(recording);
        this.run = new Window(fromUs, Math.max(fromUs, Math.min(endUs, recording.untilUs())));
    }

    /** When all that is told within the first second was told. */
    private static long firstUs(Recording recording) {
        List<Long> firsts = recording.signals().stream()
                .flatMapToLong(signal -> signal instanceof Signal.Wire wire
                        ? recording.switched(wire).stream()
                                .mapToLong(s -> s.edges().fromUs())
                        : recording.sampled(signal).map(Sampled::trace).filter(trace -> trace.size() > 0).stream()
                                .mapToLong((Trace trace) -> trace.timeUs(0)))
                .boxed()
                .toList();
        long earliest = firsts.stream().min(Comparator.naturalOrder()).orElse(0L);
        return firsts.stream()
                .filter(first -> first - earliest <= BEGIN_US)
                .max(Comparator.naturalOrder())
                .orElse(earliest);
    }

    /** Every case of it; empty if what it speaks of did not arise in this run. */
    public List<Case> measure(Throughout throughout) {
        return switch (throughout.property()) {
            case APPLICATION_ONLY_WITH_HOLDING ->
                new AlwaysWires(this).application(throughout).stream().toList();
            case NO_TRACTION_WITHOUT_DEADMAN ->
                new AlwaysWires(this).traction(throughout).stream().toList();
            case VIGILANCE_STAGES_IN_ORDER ->
                new AlwaysWires(this).vigilance(throughout).stream().toList();
            case LAMP_ONLY_WITH_SUPPLY ->
                new AlwaysWires(this).lamp(throughout).stream().toList();
            case NO_CHARGE_OUT_OF_RELEASE -> new AlwaysPressures(this).charge(throughout);
            case CYLINDER_HOLDS_IN_LAP -> new AlwaysPressures(this).lap(throughout);
            case CYLINDER_BELOW_LIMIT -> new AlwaysPressures(this).cylinder(throughout);
            case EP_RELEASE_EMPTIES_THE_CYLINDER -> new AlwaysPressures(this).release(throughout);
            case DUMP_EMPTIES_THE_PIPE -> new AlwaysDumps(this).dump(throughout);
            case BENCH_TWINS_AGREE -> new Twins(recording, run).agree(plan.bench());
            case BENCH_PIPES_AGREE -> new BenchChecks(this).pipes(throughout);
            case BENCH_CYLINDERS_AGREE -> new BenchChecks(this).cylinders(throughout);
            case BENCH_AIR_FLOWS_DOWN -> new BenchChecks(this).nowhere(throughout);
            case BENCH_MAIN_RESERVOIRS_AGREE -> new BenchChecks(this).mains(throughout);
            case BENCH_ORDERS_REACH_A_CYLINDER -> new AnsweredOrders(this).orders(throughout);
        };
    }

    /** The figure of that place in the property's list. */
    static Limit figure(Throughout throughout, int index) {
        return Optional.ofNullable(
                        throughout.limits().get(throughout.property().figures().get(index)))
                .orElseThrow();
    }

    Plan plan() {
        return plan;
    }

    Recording recording() {
        return recording;
    }

    Driven driven() {
        return driven;
    }

    Words words() {
        return words;
    }

    /** The stretch of the run: from the first report until the end, or until bench or operator ended it. */
    Window run() {
        return run;
    }

    /** Signals of that kind that the bench carries, by vehicle. */
    List<Signal> pressures(PressureKind kind) {
        return IntStream.rangeClosed(1, plan.wiring().vehicles())
                .<Signal>mapToObj(vehicle -> new Signal.Pressure(kind, vehicle))
                .filter(signal -> recording.sampled(signal).isPresent())
                .toList();
    }

    /** When the handle was commanded into a position. */
    List<Window> handleAt(String position) {
        double degrees = degrees(position);
        return during(driven.when("handle", at -> Math.abs(at - degrees) <= NEAR_DEGREES));
    }

    /** When the handle was commanded into a position or beyond it, towards emergency. */
    List<Window> handleFrom(String position) {
        double degrees = degrees(position);
        return during(driven.when("handle", at -> at >= degrees - NEAR_DEGREES));
    }

    private double degrees(String position) {
        return Optional.ofNullable(plan.wiring().handle().positions().get(position))
                .orElse(Double.NaN);
    }

    /** When that wire was on; empty if the bench told nothing of it. */
    Optional<List<Window>> on(String wire) {
        return edges(wire).map(edges -> Stretches.of(edges, run));
    }

    /** When that wire was off for certain: not where its reports were lost, nor where nobody reads it. */
    List<Window> off(String wire) {
        Optional<List<Window>> on = on(wire);
        if (on.isEmpty()) {
            return plan.wiring().wires().contains(wire) ? List.of() : List.of(run);
        }
        List<Window> off = not(on.get());
        for (Window lost : recording.lost(new Signal.Wire(wire))) {
            off = Stretches.both(off, Stretches.outside(List.of(lost), run));
        }
        return off;
    }

    Optional<Edges> edges(String wire) {
        return recording.switched(new Signal.Wire(wire)).map(Switched::edges);
    }

    /** When something driven was as told by its edges, within the run. */
    List<Window> during(Edges driven) {
        return Stretches.of(driven, run);
    }

    List<Window> not(List<Window> stretches) {
        return Stretches.outside(stretches, run);
    }
}
