package dev.lapwing.challenge;

import static dev.lapwing.challenge.Asked.any;
import static dev.lapwing.challenge.Asked.atLeast;
import static dev.lapwing.challenge.Asked.atMost;
import static dev.lapwing.challenge.Asked.cylinder;
import static dev.lapwing.challenge.Asked.level;
import static dev.lapwing.challenge.Asked.notLate;
import static dev.lapwing.challenge.Asked.pipe;
import static dev.lapwing.challenge.Asked.psi;
import static dev.lapwing.challenge.Asked.rate;
import static dev.lapwing.challenge.Asked.time;
import static dev.lapwing.challenge.Asked.times;
import static dev.lapwing.challenge.Asked.wire;

import dev.lapwing.challenge.Question.Kind;
import dev.lapwing.finding.Limit;
import dev.lapwing.plan.Check;
import dev.lapwing.plan.PlannedCondition;
import dev.lapwing.sequence.ResponseTerm;
import dev.lapwing.signal.Polyline;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/** One quantity of each kind that sequences ask for, and more, of a train of so many vehicles. */
final class Questions {
    private final Asked asked;
    private final int rear;

    private Questions(Asked asked, int vehicles) {
        this.asked = asked;
        rear = vehicles;
    }

    static void ask(Asked asked, int vehicles) {
        Questions questions = new Questions(asked, vehicles);
        questions.levels();
        questions.wires();
        questions.crossings();
        questions.terms();
        questions.movements();
        questions.curves();
        questions.margins();
        questions.counts();
    }

    private void levels() {
        asked.value("settled level, cylinder 1", "ep-apply", level(cylinder(1), 6, 1));
        asked.value("settled level, cylinder " + rear, "ep-apply", level(cylinder(rear), 6, 0.5));
        asked.value("settled level, pipe " + rear, "full-service", level(pipe(rear), 10, 2));
        asked.value(
                "change by the stimulus, cylinder 1", "ep-apply", new Check.Movement(cylinder(1), 0.5, 6, 0.5, any()));
        asked.value(
                "change between two times, cylinder 1", "ep-apply", new Check.Change(cylinder(1), 1, 7, 0.2, any()));
        asked.value(
                "difference of two transducers",
                "ep-apply",
                new Check.Agreement(cylinder(rear), cylinder(1), 6, 0.5, any()));
        asked.value("highest, cylinder 1", "ep-apply", new Check.Stays(cylinder(1), OptionalDouble.of(8), atMost(60)));
        asked.value("lowest, pipe 1", "ep-apply", new Check.Stays(pipe(1), OptionalDouble.of(8), atLeast(60)));
        asked.value("rate of fall, cylinder 1", "ep-apply", new Check.Leak(cylinder(1), 5, 3, rate()));
        asked.value("rate of fall, pipe " + rear, "full-service", new Check.Leak(pipe(rear), 9, 4, rate()));
    }

    private void wires() {
        asked.value("time of a wire, holding", "ep-apply", new Check.WireSwitches(wire("holding"), true, 2, time()));
        asked.value(
                "time of a wire, holding off", "ep-release", new Check.WireSwitches(wire("holding"), false, 2, time()));
    }

    private void crossings() {
        asked.rises("charge", pipe(rear), 20, 30, 65);
        asked.falls("full-service", pipe(rear), 12, 60);
        asked.falls("emergency", pipe(1), 8, 10);
        asked.falls("deadman", pipe(1), 8, 10);
        asked.falls("deadman", pipe(rear), 8, 10);
    }

    private void terms() {
        term("ep-apply", ResponseTerm.TIME_TO_SHARE, 0.5, time());
        term("ep-apply", ResponseTerm.TIME_TO_SHARE, 0.95, time());
        term("ep-apply", ResponseTerm.TRANSITION_DURATION, 0, time());
        term("ep-apply", ResponseTerm.EQUIVALENT_RESPONSE_TIME, 0, time());
        term("ep-apply", ResponseTerm.OVERSHOOT, 0, any());
        term("ep-apply", ResponseTerm.SETTLING_DURATION, 0.05, time());
        term("emergency", ResponseTerm.TRANSITION_DURATION, 0, time());
    }

    private void movements() {
        asked.value("onset, cylinder 1", "ep-apply", new Check.Onset(cylinder(1), true, 4, time()));
        asked.value("onset, pipe " + rear, "emergency", new Check.Onset(pipe(rear), false, 4, time()));
        asked.value(
                "steepest fall, pipe " + rear, "emergency", new Check.SteepestRate(pipe(rear), false, 0.2, 4, rate()));
        asked.value("steepest rise, cylinder 1", "ep-apply", new Check.SteepestRate(cylinder(1), true, 0.5, 4, rate()));
        asked.value(
                "duration below 40 psi, cylinder 1",
                "gap-1000",
                new Check.Duration(new PlannedCondition.Below(cylinder(1), psi(40)), 4, time()));
    }

    private void term(String stimulus, ResponseTerm term, double share, Limit limit) {
        Check.States states = new Check.States(OptionalDouble.empty(), OptionalDouble.empty(), false, 0.5);
        String size = share == 0 ? "" : ", " + Math.round(share * 100) + " %";
        Check check = new Check.Response(cylinder(1), term, share, states, 7, 1, limit);
        asked.value(stimulus + ": " + term.spoken() + size, stimulus, check);
    }

    /** A curve beside the rise and one beside the level that it comes to. */
    private void curves() {
        asked.value(
                "distance from a curve beside the rise, cylinder 1",
                "ep-apply",
                new Check.Follows(cylinder(1), Optional.of(line(1.2, 10, 2.4, 36)), Optional.empty(), atLeast(0)));
        asked.value(
                "distance from a curve beside the level, cylinder 1",
                "ep-apply",
                new Check.Follows(cylinder(1), Optional.empty(), Optional.of(line(0.5, 52, 8, 52)), atLeast(0)));
    }

    private static Polyline line(double fromSeconds, double fromPsi, double toSeconds, double toPsi) {
        return new Polyline(
                List.of(new Polyline.Point(fromSeconds, psi(fromPsi)), new Polyline.Point(toSeconds, psi(toPsi))));
    }

    /** Whenever the cylinder is up from 8 psi, it is up to 40 psi soon after. */
    private void margins() {
        PlannedCondition soon = new PlannedCondition.Eventually(0, 1.8, above(1, 40));
        PlannedCondition whenever =
                new PlannedCondition.AnyOf(List.of(new PlannedCondition.Below(cylinder(1), psi(8)), soon));
        margin("margin of a level, cylinder 1", soon, false, atLeast(0));
        margin("margin of a level throughout, cylinder 1", whenever, true, atLeast(0));
        margin("margin in time, cylinder 1", new PlannedCondition.Eventually(0, 4, above(1, 40)), false, notLate());
        margin("margin in time throughout, cylinder 1", whenever, true, notLate());
    }

    private void margin(String name, PlannedCondition condition, boolean lasting, Limit limit) {
        OptionalDouble over = lasting ? OptionalDouble.of(4) : OptionalDouble.empty();
        asked.value(name, "ep-apply", new Check.Temporal(condition, lasting, over, 2, limit));
    }

    private void counts() {
        asked.add(
                "number of pulses, application",
                "ep-apply",
                Kind.COUNT,
                new Check.Pulses(wire("application"), OptionalDouble.of(8), times()));
        asked.add(
                "number of times above 25 psi, cylinder 1",
                "ep-apply",
                Kind.COUNT,
                new Check.NeverHolds(
                        new PlannedCondition.Above(cylinder(1), psi(25)), 0.5, OptionalDouble.of(8), times()));
        order("holding wire before 5 psi", "ep-apply", new PlannedCondition.WireIs(wire("holding"), true), above(1, 5));
        order("5 psi in front before the rear", "ep-apply", above(1, 5), above(rear, 5));
        order("52 psi in front before the rear", "emergency", below(1, 52), below(rear, 52));
    }

    private void order(String name, String stimulus, PlannedCondition first, PlannedCondition then) {
        asked.add(name, stimulus, Kind.ORDER, new Check.ComesBefore(first, then, 4, time()));
    }

    private static PlannedCondition above(int vehicle, double psi) {
        return new PlannedCondition.Above(cylinder(vehicle), psi(psi));
    }

    private static PlannedCondition below(int vehicle, double psi) {
        return new PlannedCondition.Below(pipe(vehicle), psi(psi));
    }
}
