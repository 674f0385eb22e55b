package dev.lapwing.judge;

import static dev.lapwing.measure.HandMade.PSI;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Input;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.bench.Output;
import dev.lapwing.bench.Point;
import dev.lapwing.bench.PointKind;
import dev.lapwing.finding.Limit;
import dev.lapwing.fixture.Design;
import dev.lapwing.fixture.Handle;
import dev.lapwing.fixture.Wiring;
import dev.lapwing.measure.Limits;
import dev.lapwing.naming.Ability;
import dev.lapwing.naming.DesignFlag;
import dev.lapwing.naming.DesignOption;
import dev.lapwing.naming.Keys;
import dev.lapwing.plan.Course;
import dev.lapwing.plan.Course.Ending;
import dev.lapwing.plan.Course.Executed;
import dev.lapwing.plan.Course.ExpectationWindow;
import dev.lapwing.plan.Course.Trouble;
import dev.lapwing.plan.Plan;
import dev.lapwing.plan.PlanStep;
import dev.lapwing.plan.PlannedExpectation;
import dev.lapwing.plan.Throughout;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.sequence.AlwaysProperty;
import dev.lapwing.source.Place;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** Plans and courses by hand, of a four-vehicle unit. */
final class Bench {
    static final double RELEASE = 0;
    static final double LAP = 55;
    static final double SERVICE = 85;
    static final double EMERGENCY = 105;

    private final List<Executed> executed = new ArrayList<>();
    private final List<ExpectationWindow> windows = new ArrayList<>();
    private final List<Trouble> troubles = new ArrayList<>();
    private Ending ending = Ending.COMPLETE;
    private LocalDate day = LocalDate.of(2026, 11, 24);

    /** At so many seconds the actuator of that key goes to that value. */
    Bench drives(double seconds, String key, double value) {
        long us = Math.round(seconds * 1e6);
        executed.add(new Executed(executed.size(), key, Map.of(key, value), us, Optional.of(us), 0));
        return this;
    }

    Bench watched(String id, double origin, double closed, boolean complete) {
        long originUs = Math.round(origin * 1e6);
        windows.add(new ExpectationWindow(id, originUs, originUs, Math.round(closed * 1e6), complete));
        return this;
    }

    Bench trouble(Trouble.Kind kind, double seconds, String why) {
        troubles.add(new Trouble(kind, Math.round(seconds * 1e6), why));
        ending = Ending.CUT_SHORT;
        return this;
    }

    Bench on(LocalDate other) {
        day = other;
        return this;
    }

    Course course() {
        return new Course(executed, windows, Map.of(), troubles, ending, Long.MAX_VALUE, day);
    }

    static Plan plan(List<PlannedExpectation> expectations, AlwaysProperty... properties) {
        return plan(List.of(), expectations, properties);
    }

    /** On a bench with these inputs, by which nothing is read here: recordings are made by hand. */
    static Plan plan(List<Input> inputs, List<PlannedExpectation> expectations, AlwaysProperty... properties) {
        return new Plan(
                "test",
                "a test",
                "to test",
                "classic",
                "a unit",
                "issue 1",
                false,
                wiring(),
                file(inputs),
                List.of(),
                List.of(),
                List.of(new PlanStep.Expect(expectations, "expect", "t:1:1")),
                List.of(),
                Arrays.stream(properties).map(Bench::throughout).toList(),
                List.of(new Plan.LeftOut("left", "something is so", "t:9:1", "the unit has no such thing")));
    }

    static Throughout throughout(AlwaysProperty property) {
        List<Limit> limits = switch (property) {
            case APPLICATION_ONLY_WITH_HOLDING -> List.of(Limits.atMost(Dimension.TIME, 0.020));
            case NO_TRACTION_WITHOUT_DEADMAN -> List.of(Limits.atMost(Dimension.TIME, 0.250));
            case NO_CHARGE_OUT_OF_RELEASE -> List.of(Limits.atMost(Dimension.PRESSURE, 2.5 * PSI));
            case CYLINDER_HOLDS_IN_LAP -> List.of(Limits.atMost(Dimension.LEAK_RATE, PSI / 60));
            case CYLINDER_BELOW_LIMIT -> List.of(Limits.atMost(Dimension.PRESSURE, 53 * PSI));
            case DUMP_EMPTIES_THE_PIPE ->
                List.of(Limits.atMost(Dimension.TIME, 8), Limits.atMost(Dimension.PRESSURE, 10 * PSI));
            case EP_RELEASE_EMPTIES_THE_CYLINDER -> List.of(Limits.atMost(Dimension.PRESSURE, PSI));
            case VIGILANCE_STAGES_IN_ORDER -> List.of(Limits.atMost(Dimension.TIME, 5));
            case BENCH_PIPES_AGREE, BENCH_AIR_FLOWS_DOWN, BENCH_MAIN_RESERVOIRS_AGREE ->
                List.of(Limits.atMost(Dimension.PRESSURE, 1.5 * PSI));
            case BENCH_TWINS_AGREE -> List.of();
            case BENCH_CYLINDERS_AGREE -> List.of(Limits.atMost(Dimension.PRESSURE, 5 * PSI));
            case BENCH_ORDERS_REACH_A_CYLINDER -> List.of(Limits.atMost(Dimension.TIME, 3));
            case LAMP_ONLY_WITH_SUPPLY ->
                List.of(Limits.atMost(Dimension.VOLTAGE, 77), Limits.atMost(Dimension.TIME, 1));
        };
        Map<String, Limit> byName = new LinkedHashMap<>();
        for (int i = 0; i < limits.size(); i++) {
            byName.put(property.figures().get(i), limits.get(i));
        }
        return new Throughout(property, byName);
    }

    private static Wiring wiring() {
        Set<DesignOption> options = new HashSet<>();
        for (DesignFlag flag : DesignFlag.values()) {
            options.add(flag.options().get(0));
        }
        Handle handle = new Handle(
                Map.of(
                        "release",
                        RELEASE,
                        "full-ep",
                        40.0,
                        "lap",
                        LAP,
                        "full-service",
                        SERVICE,
                        "emergency",
                        EMERGENCY),
                Map.of());
        return new Wiring(4, 110, handle, 4, List.of(), Set.of(Ability.values()), new Design(options));
    }

    private static BenchFile file(List<Input> inputs) {
        List<Point> points = new ArrayList<>();
        List<Output> outputs = new ArrayList<>();
        for (String key : List.of(
                "handle",
                "deadman",
                "master-switch",
                "reverser/forward",
                "reverser/reverse",
                "wire-feed/application",
                "other-cab-charge/far",
                "cock/brake-pipe-behind-2",
                "supply/ep")) {
            String point = "O" + points.size();
            points.add(new Point(point, PointKind.ANALOG_OUT, 0, 60_000, 0, 0, 50, 0));
            outputs.add(new Output(
                    Keys.actuator(key).orElseThrow(), point, 0, key.equals("handle") ? 500 : 1, new Place("b", 1, 1)));
        }
        return new BenchFile(
                "b.yaml",
                "bench",
                new LinkChoice.Simulated(0.001, 0, 0, 0, 0),
                20e-6,
                points,
                inputs,
                outputs,
                List.of());
    }
}
