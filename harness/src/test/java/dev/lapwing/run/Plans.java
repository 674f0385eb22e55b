package dev.lapwing.run;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.finding.Limit;
import dev.lapwing.naming.Actuator;
import dev.lapwing.naming.Keys;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import dev.lapwing.plan.Plan;
import dev.lapwing.plan.PlanStep;
import dev.lapwing.plan.PlannedCondition;
import dev.lapwing.plan.PlannedExpectation;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.simulated.WorkshopTrain;
import dev.lapwing.uncertainty.DecisionRule;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.TreeMap;

/** Plans for tests, in few words. */
final class Plans {
    static final double PSI = WorkshopTrain.PSI;

    private Plans() {}

    /** Prepare, start, steps and tidy-up. */
    static Plan plan(
            BenchFile bench,
            List<PlanStep> prepare,
            List<PlanStep.WaitUntil> start,
            List<PlanStep> steps,
            List<PlanStep> tidyUp) {
        return new Plan(
                "test",
                "a test",
                "to test",
                "classic",
                "a unit",
                "issue 1",
                false,
                WorkshopTrain.wiring(),
                bench,
                prepare,
                start,
                steps,
                tidyUp,
                List.of(),
                List.of());
    }

    static Plan plan(BenchFile bench, PlanStep... steps) {
        return plan(bench, List.of(), List.of(), List.of(steps), List.of());
    }

    static PlanStep.Drive drive(Object... pairs) {
        return ramp(0, pairs);
    }

    static PlanStep.Drive ramp(long overUs, Object... pairs) {
        Map<Actuator, Double> values = new HashMap<>();
        Map<String, Object> words = new TreeMap<>();
        for (int i = 0; i < pairs.length; i += 2) {
            values.put(Keys.actuator((String) pairs[i]).orElseThrow(), ((Number) pairs[i + 1]).doubleValue());
            words.put((String) pairs[i], pairs[i + 1]);
        }
        return new PlanStep.Drive(values, overUs, "drive " + words, "t:1:1");
    }

    static PlanStep.Wait seconds(double seconds) {
        return new PlanStep.Wait(Math.round(seconds * 1e6), "wait " + seconds + " s", "t:2:1");
    }

    static PlanStep.WaitUntil until(String signal, double abovePsi, double seconds) {
        PlannedCondition condition =
                new PlannedCondition.Above(Keys.signal(signal).orElseThrow(), abovePsi * PSI);
        return new PlanStep.WaitUntil(
                condition, Math.round(seconds * 1e6), signal + " above " + abovePsi + " psi", "t:3:1");
    }

    static PlanStep.Expect expect(PlannedExpectation... expectations) {
        return new PlanStep.Expect(List.of(expectations), "expect", "t:4:1");
    }

    static PlanStep.While during(PlannedExpectation expectation, PlanStep... steps) {
        return new PlanStep.While(List.of(expectation), List.of(steps), "meanwhile", "t:5:1");
    }

    static PlannedExpectation rises(String id, String signal, double psi, double seconds) {
        Limit limit = limit(Dimension.TIME, seconds);
        return expectation(
                id, new Check.Crossing(Keys.signal(signal).orElseThrow(), true, psi * PSI, 2 * seconds, limit));
    }

    static PlannedExpectation switches(String id, String wire, boolean on, double seconds) {
        return expectation(
                id, new Check.WireSwitches(new Signal.Wire(wire), on, 2 * seconds, limit(Dimension.TIME, seconds)));
    }

    /** Lasts as long as the steps around it. */
    static PlannedExpectation stays(String id, String signal, double belowPsi) {
        return stays(id, signal, belowPsi, OptionalDouble.empty());
    }

    static PlannedExpectation stays(String id, String signal, double belowPsi, OptionalDouble seconds) {
        Limit limit = limit(Dimension.PRESSURE, belowPsi * PSI);
        return expectation(id, new Check.Stays(Keys.signal(signal).orElseThrow(), seconds, limit));
    }

    private static PlannedExpectation expectation(String id, Check check) {
        return new PlannedExpectation(id, id, "t:6:1", check);
    }

    private static Limit limit(Dimension dimension, double upper) {
        return new Limit(
                "figure",
                dimension,
                OptionalDouble.empty(),
                OptionalDouble.of(upper),
                DecisionRule.GUARDED,
                OptionalDouble.empty(),
                "test",
                "t:7:1");
    }
}
