package dev.lapwing.evidence;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Calibration;
import dev.lapwing.bench.Input;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.bench.Output;
import dev.lapwing.bench.Point;
import dev.lapwing.bench.PointKind;
import dev.lapwing.bench.Stream;
import dev.lapwing.finding.Limit;
import dev.lapwing.fixture.Design;
import dev.lapwing.fixture.Handle;
import dev.lapwing.fixture.Wiring;
import dev.lapwing.naming.Ability;
import dev.lapwing.naming.Actuator;
import dev.lapwing.naming.DesignFlag;
import dev.lapwing.naming.DesignOption;
import dev.lapwing.naming.PressureKind;
import dev.lapwing.naming.Signal;
import dev.lapwing.naming.SwitchKind;
import dev.lapwing.plan.Check;
import dev.lapwing.plan.Plan;
import dev.lapwing.plan.PlanStep;
import dev.lapwing.plan.PlannedCondition;
import dev.lapwing.plan.PlannedExpectation;
import dev.lapwing.plan.Throughout;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.Unit;
import dev.lapwing.sequence.AlwaysProperty;
import dev.lapwing.sequence.ResponseTerm;
import dev.lapwing.sequence.StaircaseTerm;
import dev.lapwing.source.Place;
import dev.lapwing.uncertainty.DecisionRule;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Collectors;

/** A plan made by hand that holds every kind of step, condition and check. */
public final class SamplePlan {
    static final String FILE = "sequences/overhaul/04-ep-full-application.yaml";
    static final Signal.Pressure PIPE = new Signal.Pressure(PressureKind.BRAKE_PIPE, 1);
    static final Signal.Pressure CYLINDER_1 = new Signal.Pressure(PressureKind.BRAKE_CYLINDER, 1);
    static final Signal.Pressure CYLINDER_4 = new Signal.Pressure(PressureKind.BRAKE_CYLINDER, 4);
    static final Signal.Wire APPLICATION = new Signal.Wire("application");
    static final Signal.Wire HOLDING = new Signal.Wire("holding");
    static final Stream QUICK = new Stream("quick", List.of("BP1", "BC1", "BC4", "ANGLE"), 2_000);

    private SamplePlan() {}

    /** A pressure in Pa. */
    public static double psi(double figure) {
        return Unit.PSI.toBase(figure);
    }

    public static Plan plan() {
        return new Plan(
                "04-ep-full-application",
                "EP full application at the rearmost vehicle",
                "Every vehicle, the rearmost most of all, gets the full EP brake in time.",
                "classic",
                "Harrowmere Light Railway four-vehicle unit",
                "HLR-BT-014 issue 3 (invented), M. Quillfeather",
                false,
                wiring(),
                bench(),
                List.of(drive(new Actuator.Switch(SwitchKind.MASTER_SWITCH, ""), 1, 3)),
                List.of(new PlanStep.WaitUntil(
                        new PlannedCondition.Above(PIPE, psi(65)), 200_000_000, "brake pipe above 65 psi", at(9))),
                steps(),
                List.of(drive(new Actuator.Handle(), 0, 60)),
                List.of(new Throughout(
                        AlwaysProperty.CYLINDER_BELOW_LIMIT,
                        Map.of("always-cylinder-limit", atMost("always-cylinder-limit", psi(53))))),
                List.of(new Plan.LeftOut(
                        "warning-light",
                        "the warning light switches on within 1 s",
                        at(44),
                        "the unit has no vigilance")));
    }

    private static List<PlanStep> steps() {
        List<PlanStep> inner = List.of(
                drive(new Actuator.Handle(), 40, 21),
                new PlanStep.Wait(30_000_000, "wait 30 s", at(22)),
                new PlanStep.Expect(
                        Arrays.stream(Checks.values())
                                .map(c -> new PlannedExpectation(c.id, c.id.replace('-', ' '), at(24), c.check))
                                .toList(),
                        "expect",
                        at(23)));
        PlannedExpectation around = new PlannedExpectation(
                "pipe-untouched",
                "the brake pipe stays as it is",
                at(20),
                new Check.Stays(PIPE, OptionalDouble.empty(), between("charged-band", psi(68.5), psi(71.5))));
        PlannedCondition either = new PlannedCondition.AnyOf(List.of(
                new PlannedCondition.AllOf(List.of(
                        new PlannedCondition.Below(CYLINDER_4, psi(1)),
                        new PlannedCondition.WireIs(APPLICATION, false))),
                new PlannedCondition.Above(CYLINDER_1, psi(100))));
        return List.of(
                new PlanStep.While(List.of(around), inner, "meanwhile", at(19)),
                new PlanStep.WaitUntil(either, 20_000_000, "wait until empty", at(50)));
    }

    /** One check of each kind. */
    private enum Checks {
        LEVEL(new Check.SettledLevel(CYLINDER_4, 0, 6, 0.5, Optional.of("full"), between("ep-full-band", 1e5, 3e5))),
        LEAK(new Check.Leak(CYLINDER_4, 2, 60, atMost("cylinder-leak", 0.1 + 0.2))),
        CROSSING(new Check.Crossing(CYLINDER_4, true, psi(45), 10, atMost("ep-rise-time", 3.3))),
        STAYS(new Check.Stays(CYLINDER_4, OptionalDouble.of(5), atMost("ep-ceiling", psi(53)))),
        SWITCHES(new Check.WireSwitches(APPLICATION, true, 1, atMost("wire-time", 1.0 / 3))),
        PULSES(new Check.Pulses(HOLDING, OptionalDouble.empty(), atMost("lapping-pulses", 2))),
        NEVER(new Check.NeverHolds(
                new PlannedCondition.WireIs(HOLDING, false), 0.02, OptionalDouble.of(3), atMost("never", 0))),
        BEFORE(new Check.ComesBefore(
                new PlannedCondition.WireIs(HOLDING, true),
                new PlannedCondition.WireIs(APPLICATION, true),
                2,
                atMost("order", 0.1))),
        AGREES(new Check.Agreement(CYLINDER_4, CYLINDER_1, 6, 0.5, between("rear-minus-lead", -1e4, 1e4))),
        MOVES(new Check.Movement(CYLINDER_4, 0.2, 1, 0.5, atLeast("step-up", psi(1.5)))),
        REPEATS(new Check.Repeat(CYLINDER_4, "full", 6, 0.5, between("hysteresis", -2e4, 2e4))),
        CHANGES(new Check.Change(CYLINDER_4, 1, 2, 0.5, atLeast("change", 1e-7))),
        RESPONDS(new Check.Response(
                CYLINDER_4,
                ResponseTerm.SETTLING_DURATION,
                0.05,
                new Check.States(OptionalDouble.of(1e5), OptionalDouble.empty(), true, 0.5),
                6,
                0.5,
                atMost("settling-time", 1))),
        BEGINS(new Check.Onset(CYLINDER_4, true, 3, atMost("dead-time", 0.3))),
        STEEP(new Check.SteepestRate(PIPE, false, 0.3, 5, atLeast("steep", 1e5))),
        TRAVELS(new Check.Travel(List.of(CYLINDER_1, CYLINDER_4), true, 22, 0.2, 3, atLeast("speed", 200))),
        LASTS(new Check.Duration(new PlannedCondition.WireIs(HOLDING, true), 5, atMost("stage-time", 2))),
        RECOVERS(new Check.Recovery(CYLINDER_4, "full", 1e4, 5, atMost("recovery-time", 2))),
        DEPARTS(new Check.Departure(CYLINDER_4, "full", OptionalDouble.empty(), between("dip", -1e4, 1e4))),
        GRADUATES(new Check.Staircase(
                StaircaseTerm.HYSTERESIS,
                List.of(new Check.Plateau("full", CYLINDER_4, 40)),
                List.of(new Check.Plateau("full", CYLINDER_4, 40)),
                0,
                between("hysteresis", -1e4, 1e4)));

        private final String id;
        private final Check check;

        Checks(Check check) {
            this.id = "check-" + name().toLowerCase(Locale.ROOT);
            this.check = check;
        }
    }

    static String at(int line) {
        return FILE + ":" + line + ":5";
    }

    public static Limit atMost(String figure, double upper) {
        return limit(figure, OptionalDouble.empty(), OptionalDouble.of(upper));
    }

    public static Limit atLeast(String figure, double lower) {
        return limit(figure, OptionalDouble.of(lower), OptionalDouble.empty());
    }

    public static Limit between(String figure, double lower, double upper) {
        return limit(figure, OptionalDouble.of(lower), OptionalDouble.of(upper));
    }

    private static Limit limit(String figure, OptionalDouble lower, OptionalDouble upper) {
        Dimension dimension = figure.endsWith("-time") || figure.equals("order")
                ? Dimension.TIME
                : figure.endsWith("pulses") || figure.equals("never") ? Dimension.COUNT : Dimension.PRESSURE;
        return new Limit(
                figure,
                dimension,
                lower,
                upper,
                DecisionRule.GUARDED,
                figure.endsWith("-time") ? OptionalDouble.of(0.1) : OptionalDouble.empty(),
                "HLR-BT-014, 5.7: on the steep part of the filling curve",
                "fixtures/classic.yaml:66:20");
    }

    private static PlanStep.Drive drive(Actuator actuator, double value, int line) {
        return new PlanStep.Drive(
                Map.of(actuator, value, new Actuator.Speed(), 8.3), 500_000, "drive " + actuator.key(), at(line));
    }

    private static Wiring wiring() {
        Set<DesignOption> design = Arrays.stream(DesignFlag.values())
                .map(flag -> flag.options().get(0))
                .collect(Collectors.toSet());
        return new Wiring(
                4,
                110,
                new Handle(
                        Map.of("release", 0.0, "full-ep", 40.0, "lap", 55.0),
                        Map.of("ep-application", new Handle.Arc("release", "full-ep"))),
                4,
                List.of("application", "holding"),
                Set.of(Ability.EP_BRAKE, Ability.DEADMAN, Ability.AUTOMATIC_BRAKE),
                new Design(design));
    }

    static BenchFile bench() {
        String file = "bench-config/simulated.yaml";
        Calibration psi = calibration(psi(150), psi(0.1));
        return new BenchFile(
                file,
                "simulated four-vehicle bench",
                new LinkChoice.Simulated(0.001, 200, 0.0004, 0.0002, 10e-6),
                20e-6,
                List.of(analog("BP1"), analog("BC1"), analog("BC4"), analog("ANGLE"), digital("D1"), digital("D2")),
                List.of(
                        new Input(PIPE, "BP1", Optional.of(psi), new Place(file, 70, 3)),
                        new Input(CYLINDER_1, "BC1", Optional.of(psi), new Place(file, 71, 3)),
                        new Input(CYLINDER_4, "BC4", Optional.of(psi), new Place(file, 72, 3)),
                        new Input(
                                new Signal.HandleAngle(),
                                "ANGLE",
                                Optional.of(calibration(120, 0.1)),
                                new Place(file, 73, 3)),
                        new Input(APPLICATION, "D1", Optional.empty(), new Place(file, 74, 3)),
                        new Input(HOLDING, "D2", Optional.empty(), new Place(file, 75, 3))),
                List.of(new Output(new Actuator.Handle(), "A1", 0, 500, new Place(file, 80, 3))),
                List.of(QUICK));
    }

    private static Calibration calibration(double range, double standard) {
        return new Calibration(
                List.of(new Calibration.Pair(0, 0), new Calibration.Pair(65535, range)),
                standard,
                standard / 2,
                standard / 2,
                "2026-09-14",
                "2027-09-14",
                "HLR-CAL-0107 (invented)");
    }

    private static Point analog(String name) {
        return new Point(name, PointKind.ANALOG_IN, 0, 65535, 0, 800, 20, 0);
    }

    private static Point digital(String name) {
        return new Point(name, PointKind.DIGITAL_IN, 0, 1, 0, 0, 10, 200);
    }
}
