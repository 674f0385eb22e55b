package dev.lapwing.judge;

import dev.lapwing.measure.Driven;
import dev.lapwing.measure.WaitedFor;
import dev.lapwing.plan.Plan;
import dev.lapwing.plan.PlanStep;
import dev.lapwing.plan.PlannedCondition;
import dev.lapwing.plan.PlannedExpectation;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** What the times of expectations count from, and how well that instant is known. */
final class Origins {
    private final Map<String, PlannedCondition> waitedFor = new HashMap<>();
    private Optional<PlannedCondition> newest = Optional.empty();

    Origins(Plan plan) {
        walk(plan.prepare());
        walk(plan.start());
        walk(plan.steps());
    }

    private void walk(List<? extends PlanStep> steps) {
        for (PlanStep step : steps) {
            if (step instanceof PlanStep.Drive) {
                newest = Optional.empty();
            } else if (step instanceof PlanStep.WaitUntil until) {
                newest = Optional.of(until.condition());
            } else if (step instanceof PlanStep.Expect expect) {
                note(expect.expectations());
            } else if (step instanceof PlanStep.While during) {
                note(during.expectations());
                walk(during.steps());
            }
        }
    }

    private void note(List<PlannedExpectation> expectations) {
        newest.ifPresent(condition -> expectations.forEach(one -> waitedFor.put(one.id(), condition)));
    }

    /** Bound of the error of that expectation's origin, in µs. */
    long boundUs(PlannedExpectation expectation, long originUs, Driven driven, WaitedFor events) {
        PlannedCondition condition = waitedFor.get(expectation.id());
        return condition == null ? driven.stampBoundUs(originUs) : events.boundUs(condition, originUs);
    }
}
