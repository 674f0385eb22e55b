package dev.lapwing.judge;

import static dev.lapwing.measure.HandMade.PSI;

import dev.lapwing.finding.Limit;
import dev.lapwing.measure.HandMade;
import dev.lapwing.measure.Limits;
import dev.lapwing.measure.Remembered;
import dev.lapwing.naming.Keys;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import dev.lapwing.plan.PlannedCondition;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.sequence.ResponseTerm;
import dev.lapwing.sequence.StaircaseTerm;
import dev.lapwing.signal.Polyline;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.DecisionRule;
import dev.lapwing.uncertainty.Estimate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.SplittableRandom;

/**
 * One check of every kind on a run drawn by seed: a cylinder that fills and a pipe that is dumped.
 *
 * @param run    what was recorded
 * @param cases  the checks, and when their stimulus was, in s
 * @param before what they may recall
 */
record EveryKind(HandMade run, List<Asked> cases, Map<String, Remembered> before) {
    static final double END = 20;
    private static final Signal HEAD = Keys.signal("brake-cylinder@1").orElseThrow();
    private static final Signal REAR = Keys.signal("brake-cylinder@4").orElseThrow();
    private static final Signal.Wire APPLICATION = new Signal.Wire("application");

    /** A check and the time of its stimulus, in s. */
    record Asked(Check check, double origin) {}

    static EveryKind of(int seed) {
        SplittableRandom random = new SplittableRandom(seed);
        double rate = 15 + 10 * random.nextDouble();
        double late = 0.1 + 0.2 * random.nextDouble();
        double full = 48 + 3 * random.nextDouble();
        double lag = 0.02 + 0.02 * random.nextDouble();
        HandMade run = new HandMade(END, seed)
                .pressure("brake-cylinder@1", t -> Math.max(0, Math.min(full, rate * (t - 2 - late))))
                .pressure("brake-cylinder@4", t -> Math.max(0, Math.min(full - 0.4, rate * (t - 2.1 - late))))
                .wire("application", 2.01, 2.3 + full / rate, 7, 7.1)
                .wire("warning-light", 4, 6.5);
        for (int vehicle = 1; vehicle <= 4; vehicle++) {
            double from = 12 + lag * vehicle;
            run.pressure("brake-pipe@" + vehicle, t -> 70 * StrictMath.exp(-Math.max(0, t - from) / 0.8));
        }
        return new EveryKind(run, asked(), recalled(full));
    }

    private static List<Asked> asked() {
        List<Asked> cases = new ArrayList<>();
        levels().forEach(check -> cases.add(new Asked(check, 2)));
        responses().forEach(check -> cases.add(new Asked(check, 2)));
        staircases().forEach(check -> cases.add(new Asked(check, 2)));
        events().forEach(check -> cases.add(new Asked(check, 2)));
        List<Signal> pipes = new ArrayList<>();
        for (int vehicle = 1; vehicle <= 4; vehicle++) {
            pipes.add(Keys.signal("brake-pipe@" + vehicle).orElseThrow());
        }
        cases.add(new Asked(new Check.Travel(pipes, false, 22, 0.2, 5, Limits.atLeast(Dimension.SPEED, 100)), 12));
        return cases;
    }

    private static List<Check> levels() {
        Limit near = Limits.psi(-2, 2);
        return List.of(
                new Check.SettledLevel(HEAD, 50 * PSI, 4.5, 1, Optional.empty(), Limits.psi(-2.5, 2.5)),
                new Check.Leak(HEAD, 4.5, 2, Limits.atMost(Dimension.PRESSURE, PSI)),
                new Check.Stays(HEAD, OptionalDouble.of(7), Limits.psi(-2, 53)),
                new Check.Agreement(REAR, HEAD, 4.5, 1, near),
                new Check.Movement(HEAD, 0.5, 4.5, 1, Limits.atLeast(Dimension.PRESSURE, 40 * PSI)),
                new Check.Repeat(HEAD, "full", 4.5, 1, near),
                new Check.Change(HEAD, 4.5, 6, 0.2, near),
                new Check.Departure(HEAD, "full", OptionalDouble.of(6), Limits.psi(-60, 3)),
                new Check.SteepestRate(HEAD, true, 0.3, 4, Limits.atLeast(Dimension.PRESSURE_RATE, 10 * PSI)),
                new Check.Follows(HEAD, Optional.of(lower()), Optional.empty(), Limits.atLeast(Dimension.PRESSURE, 0)));
    }

    /** Every term of a response. */
    private static List<Check> responses() {
        OptionalDouble none = OptionalDouble.empty();
        Check.States means = new Check.States(none, none, false, 0.5);
        List<Check> checks = new ArrayList<>();
        for (ResponseTerm term : ResponseTerm.values()) {
            double share = term == ResponseTerm.SETTLING_DURATION ? 0.05 : term == ResponseTerm.TIME_TO_SHARE ? 0.5 : 0;
            Limit limit = term.timed() ? Limits.between(Dimension.TIME, 0, 6) : Limits.psi(-3, 53);
            checks.add(new Check.Response(HEAD, term, share, means, 4.5, 1, limit));
        }
        return checks;
    }

    /** Every term of a staircase: three places on the way there, two of them on the way back and visited again. */
    private static List<Check> staircases() {
        Limit near = Limits.psi(-2, 2);
        List<Check.Plateau> there = List.of(plateau("at", 10), plateau("at", 20), plateau("at", 30));
        List<Check.Plateau> back = List.of(plateau("back at", 20), plateau("back at", 10));
        List<Check.Plateau> again = List.of(plateau("at", 10), plateau("at", 20), plateau("back at", 10));
        Limit angle = Limits.atMost(Dimension.ANGLE, 15);
        return List.of(
                new Check.Staircase(StaircaseTerm.LINEARITY, there, List.of(), 0, near),
                new Check.Staircase(StaircaseTerm.LEAST_STEP, there, List.of(), 0, Limits.psi(1, 15)),
                new Check.Staircase(StaircaseTerm.HYSTERESIS, there, back, 0, near),
                new Check.Staircase(StaircaseTerm.REPEATABILITY, again, List.of(), 0, near),
                new Check.Staircase(StaircaseTerm.SMALLEST_GRADUATION, there, List.of(), 0.5 * PSI, angle));
    }

    private static List<Check> events() {
        Limit time = Limits.between(Dimension.TIME, 0, 4);
        Limit never = count(0);
        PlannedCondition full = new PlannedCondition.Above(HEAD, 40 * PSI);
        PlannedCondition fills = new PlannedCondition.Eventually(0, 3.5, full);
        return List.of(
                new Check.Crossing(HEAD, true, 40 * PSI, 6, time),
                new Check.WireSwitches(APPLICATION, true, 3, Limits.atMost(Dimension.TIME, 0.1)),
                new Check.Pulses(APPLICATION, OptionalDouble.of(6), count(2)),
                new Check.NeverHolds(new PlannedCondition.Above(HEAD, 60 * PSI), 0.02, OptionalDouble.of(6), never),
                new Check.ComesBefore(new PlannedCondition.WireIs(APPLICATION, true), full, 6, time),
                new Check.Temporal(fills, false, OptionalDouble.empty(), 0, Limits.atLeast(Dimension.PRESSURE, 0)),
                new Check.Temporal(fills, false, OptionalDouble.empty(), 2, Limits.atLeast(Dimension.TIME, 0)),
                new Check.Comparison("rear", "head", true, Limits.atMost(Dimension.RATIO, 1.3)),
                new Check.Onset(HEAD, true, 3, Limits.atMost(Dimension.TIME, 1)),
                new Check.Duration(
                        new PlannedCondition.WireIs(new Signal.Wire("warning-light"), true),
                        6,
                        Limits.between(Dimension.TIME, 2, 3)),
                new Check.Recovery(HEAD, "full", PSI, 6, Limits.atMost(Dimension.TIME, 5)));
    }

    private static Limit count(int most) {
        return Limits.of(Dimension.COUNT, OptionalDouble.empty(), OptionalDouble.of(most), DecisionRule.SIMPLE);
    }

    private static Check.Plateau plateau(String way, double degrees) {
        return new Check.Plateau(way + " " + degrees, HEAD, degrees);
    }

    private static Polyline lower() {
        return new Polyline(List.of(new Polyline.Point(0.5, -PSI), new Polyline.Point(5, 46 * PSI)));
    }

    private static Map<String, Remembered> recalled(double full) {
        Map<String, Remembered> before = new HashMap<>();
        before.put("full", level(full * PSI));
        for (double degrees : new double[] {10, 20, 30}) {
            before.put("at " + degrees, level(degrees * PSI));
            before.put("back at " + degrees, level((degrees + 0.3) * PSI));
        }
        before.put(Remembered.ofExpectation("head"), remembered(1, Dimension.TIME, "clock/bench", 1e-5));
        before.put(Remembered.ofExpectation("rear"), remembered(1.1, Dimension.TIME, "clock/bench", 1.1e-5));
        return before;
    }

    private static Remembered level(double pascals) {
        return remembered(pascals, Dimension.PRESSURE, "calibration/P-brake-cylinder@1", 0.1 * PSI);
    }

    private static Remembered remembered(double value, Dimension dimension, String source, double standard) {
        return new Remembered(new Estimate(value, dimension, List.of(new Component(source, standard))), List.of());
    }
}
