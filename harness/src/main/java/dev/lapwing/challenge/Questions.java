package dev.lapwing.challenge;

import dev.lapwing.challenge.Question.Kind;
import dev.lapwing.finding.Limit;
import dev.lapwing.naming.PressureKind;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import dev.lapwing.plan.PlannedCondition;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.Unit;
import dev.lapwing.sequence.ResponseTerm;
import dev.lapwing.uncertainty.DecisionRule;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.IntStream;

/** The quantities of the study, for a train of so many vehicles: one of each kind that sequences ask for, and more. */
final class Questions {
    private final List<Question> all = new ArrayList<>();
    private final int rear;

    private Questions(int vehicles) {
        rear = vehicles;
    }

    static List<Question> of(int vehicles) {
        Questions questions = new Questions(vehicles);
        questions.electric();
        questions.automatic();
        questions.dumps();
        questions.terms();
        questions.counts();
        return List.copyOf(questions.all);
    }

    /** All signals that any of them looks at. */
    static List<Signal> signals(List<Question> questions) {
        Set<Signal> signals = new LinkedHashSet<>();
        questions.forEach(question -> signals.addAll(question.check().signals()));
        return List.copyOf(signals);
    }

    private void electric() {
        rises("ep-apply", cylinder(1), 5, 25, 45);
        rises("ep-apply", cylinder(rear), 5, 25, 45);
        falls("ep-release", cylinder(1), 12, 25, 10, 5, 1);
        falls("ep-release", cylinder(rear), 12, 25, 10, 5, 1);
        value("settled level, cylinder 1", "ep-apply", level(cylinder(1), 6, 1));
        value("settled level, cylinder " + rear, "ep-apply", level(cylinder(rear), 6, 0.5));
        value("change by the stimulus, cylinder 1", "ep-apply", new Check.Movement(cylinder(1), 0.5, 6, 0.5, any()));
        value("change between two times, cylinder 1", "ep-apply", new Check.Change(cylinder(1), 1, 7, 0.2, any()));
        value(
                "difference of two transducers",
                "ep-apply",
                new Check.Agreement(cylinder(rear), cylinder(1), 6, 0.5, any()));
        value("highest, cylinder 1", "ep-apply", new Check.Stays(cylinder(1), OptionalDouble.of(8), atMost(60)));
        value("lowest, pipe 1", "ep-apply", new Check.Stays(pipe(1), OptionalDouble.of(8), atLeast(60)));
        value("rate of fall, cylinder 1", "ep-apply", new Check.Leak(cylinder(1), 5, 3, rate()));
        value(
                "time of a wire, holding",
                "ep-apply",
                new Check.WireSwitches(new Signal.Wire("holding"), true, 2, time()));
        value("time of a wire, holding off", "ep-release", new Check.WireSwitches(wire("holding"), false, 2, time()));
    }

    private void automatic() {
        rises("charge", pipe(rear), 30, 65);
        rises("full-service", cylinder(1), 45);
        rises("full-service", cylinder(rear), 45);
        falls("full-service", pipe(rear), 12, 60);
        value("settled level, pipe " + rear, "full-service", level(pipe(rear), 10, 2));
        value("rate of fall, pipe " + rear, "full-service", new Check.Leak(pipe(rear), 9, 4, rate()));
        rises("recharge", pipe(rear), 65);
        falls("recharge", cylinder(rear), 20, 5);
    }

    private void dumps() {
        falls("emergency", pipe(1), 8, 68, 52, 10);
        falls("emergency", pipe(rear), 8, 68, 52, 10);
        rises("emergency", cylinder(1), 45);
        rises("emergency", cylinder(rear), 45);
        falls("deadman", pipe(1), 8, 52, 10);
        falls("deadman", pipe(rear), 8, 52, 10);
        rises("deadman", cylinder(rear), 45);
    }

    private void terms() {
        term("ep-apply", ResponseTerm.TIME_TO_SHARE, 0.5, time());
        term("ep-apply", ResponseTerm.TIME_TO_SHARE, 0.95, time());
        term("ep-apply", ResponseTerm.TRANSITION_DURATION, 0, time());
        term("ep-apply", ResponseTerm.EQUIVALENT_RESPONSE_TIME, 0, time());
        term("ep-apply", ResponseTerm.OVERSHOOT, 0, any());
        term("ep-apply", ResponseTerm.SETTLING_DURATION, 0.05, time());
        term("emergency", ResponseTerm.TRANSITION_DURATION, 0, time());
        value("onset, cylinder 1", "ep-apply", new Check.Onset(cylinder(1), true, 4, time()));
        value("onset, pipe " + rear, "emergency", new Check.Onset(pipe(rear), false, 4, time()));
        value("steepest fall, pipe " + rear, "emergency", new Check.SteepestRate(pipe(rear), false, 0.2, 4, rate()));
        value("steepest rise, cylinder 1", "ep-apply", new Check.SteepestRate(cylinder(1), true, 0.5, 4, rate()));
        value(
                "speed along the train",
                "emergency",
                new Check.Travel(
                        pipes(),
                        false,
                        22,
                        0,
                        4,
                        limit(Dimension.SPEED, OptionalDouble.empty(), OptionalDouble.of(1e4))));
        value(
                "duration above 25 psi, cylinder 1",
                "ep-release",
                new Check.Duration(new PlannedCondition.Above(cylinder(1), psi(25)), 6, time()));
    }

    private void term(String stimulus, ResponseTerm term, double share, Limit limit) {
        Check.States states = new Check.States(OptionalDouble.empty(), OptionalDouble.empty(), false, 0.5);
        String size = share == 0 ? "" : ", " + Math.round(share * 100) + " %";
        Check check = new Check.Response(cylinder(1), term, share, states, 7, 1, limit);
        value(stimulus + ": " + term.spoken() + size, stimulus, check);
    }

    private List<Signal> pipes() {
        return IntStream.rangeClosed(1, rear).mapToObj(Questions::pipe).toList();
    }

    private void counts() {
        all.add(new Question(
                "number of pulses, application",
                "ep-apply",
                Kind.COUNT,
                new Check.Pulses(wire("application"), OptionalDouble.of(8), times())));
        all.add(new Question(
                "number of times above 25 psi, cylinder 1",
                "ep-apply",
                Kind.COUNT,
                new Check.NeverHolds(
                        new PlannedCondition.Above(cylinder(1), psi(25)), 0.5, OptionalDouble.of(8), times())));
        order("holding wire before 5 psi", "ep-apply", new PlannedCondition.WireIs(wire("holding"), true), above(1, 5));
        order("5 psi in front before the rear", "ep-apply", above(1, 5), above(rear, 5));
        order("52 psi in front before the rear", "emergency", below(1, 52), below(rear, 52));
    }

    private void order(String name, String stimulus, PlannedCondition first, PlannedCondition then) {
        all.add(new Question(name, stimulus, Kind.ORDER, new Check.ComesBefore(first, then, 4, time())));
    }

    private PlannedCondition above(int vehicle, double psi) {
        return new PlannedCondition.Above(cylinder(vehicle), psi(psi));
    }

    private PlannedCondition below(int vehicle, double psi) {
        return new PlannedCondition.Below(pipe(vehicle), psi(psi));
    }

    private void rises(String stimulus, Signal signal, double... levels) {
        for (double level : levels) {
            double patience = stimulus.equals("charge") || stimulus.equals("recharge") ? 20 : 8;
            crossing(stimulus, signal, true, level, patience);
        }
    }

    private void falls(String stimulus, Signal signal, double patience, double... levels) {
        for (double level : levels) {
            crossing(stimulus, signal, false, level, patience);
        }
    }

    private void crossing(String stimulus, Signal signal, boolean rising, double level, double patience) {
        String name = stimulus + ": " + signal.key().replace("brake-", "") + (rising ? " above " : " below ")
                + Math.round(level) + " psi";
        value(name, stimulus, new Check.Crossing(signal, rising, psi(level), patience, time()));
    }

    private void value(String name, String stimulus, Check check) {
        all.add(new Question(name, stimulus, Kind.VALUE, check));
    }

    private static Check level(Signal signal, double settled, double over) {
        return new Check.SettledLevel(signal, 0, settled, over, Optional.empty(), any());
    }

    private static Signal cylinder(int vehicle) {
        return new Signal.Pressure(PressureKind.BRAKE_CYLINDER, vehicle);
    }

    private static Signal pipe(int vehicle) {
        return new Signal.Pressure(PressureKind.BRAKE_PIPE, vehicle);
    }

    private static Signal.Wire wire(String name) {
        return new Signal.Wire(name);
    }

    private static double psi(double psi) {
        return Unit.PSI.toBase(psi);
    }

    // Nothing is judged here; a check only has to have a limit, and an extreme has to know which end is meant.

    private static Limit any() {
        return atMost(100);
    }

    private static Limit atMost(double psi) {
        return limit(Dimension.PRESSURE, OptionalDouble.empty(), OptionalDouble.of(psi(psi)));
    }

    private static Limit atLeast(double psi) {
        return limit(Dimension.PRESSURE, OptionalDouble.of(psi(psi)), OptionalDouble.empty());
    }

    private static Limit rate() {
        return limit(Dimension.PRESSURE_RATE, OptionalDouble.empty(), OptionalDouble.of(psi(1)));
    }

    private static Limit time() {
        return limit(Dimension.TIME, OptionalDouble.empty(), OptionalDouble.of(100));
    }

    private static Limit times() {
        return limit(Dimension.COUNT, OptionalDouble.empty(), OptionalDouble.of(100));
    }

    private static Limit limit(Dimension dimension, OptionalDouble lower, OptionalDouble upper) {
        return new Limit(
                "none", dimension, lower, upper, DecisionRule.GUARDED, OptionalDouble.empty(), "coverage study", "");
    }
}
