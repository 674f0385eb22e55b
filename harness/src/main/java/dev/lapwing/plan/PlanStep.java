package dev.lapwing.plan;

import dev.lapwing.naming.Actuator;
import java.util.List;
import java.util.Map;

/** One resolved step. {@code text} is the step as a person reads it, {@code place} where it stands in its file. */
public sealed interface PlanStep {
    String text();

    String place();

    /**
     * Drives actuators together.
     *
     * @param values by actuator, base units
     * @param overUs time of the ramp in µs; 0 for a step
     */
    record Drive(Map<Actuator, Double> values, long overUs, String text, String place) implements PlanStep {}

    /** Lets bench time pass, in µs. */
    record Wait(long us, String text, String place) implements PlanStep {}

    /** Waits until the condition holds, {@code atMostUs} at most. */
    record WaitUntil(PlannedCondition condition, long atMostUs, String text, String place) implements PlanStep {}

    /** Watches expectations until the last is decided. */
    record Expect(List<PlannedExpectation> expectations, String text, String place) implements PlanStep {}

    /**
     * Watches expectations while the steps are done. Those with a time of their own are watched as long as that takes,
     * also beyond the steps.
     */
    record While(List<PlannedExpectation> expectations, List<PlanStep> steps, String text, String place)
            implements PlanStep {}
}
