package dev.lapwing.evidence;

import com.fasterxml.jackson.annotation.JsonSubTypes;
import com.fasterxml.jackson.annotation.JsonSubTypes.Type;
import com.fasterxml.jackson.annotation.JsonTypeInfo;
import com.fasterxml.jackson.databind.module.SimpleModule;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.plan.Check;
import dev.lapwing.plan.PlanStep;
import dev.lapwing.plan.PlannedCondition;

/**
 * Under which names the sealed types of a plan stand in a record. These names are part of the file format: a class may
 * be renamed, its name here stays.
 */
final class PlanShapes extends SimpleModule {
    private static final long serialVersionUID = 1;

    PlanShapes() {
        setMixInAnnotation(PlanStep.class, Step.class);
        setMixInAnnotation(PlannedCondition.class, Condition.class);
        setMixInAnnotation(Check.class, Measured.class);
        setMixInAnnotation(LinkChoice.class, Link.class);
    }

    @JsonTypeInfo(use = JsonTypeInfo.Id.NAME, property = "kind")
    @JsonSubTypes({
        @Type(name = "drive", value = PlanStep.Drive.class),
        @Type(name = "wait", value = PlanStep.Wait.class),
        @Type(name = "wait-until", value = PlanStep.WaitUntil.class),
        @Type(name = "expect", value = PlanStep.Expect.class),
        @Type(name = "while", value = PlanStep.While.class)
    })
    private interface Step {}

    @JsonTypeInfo(use = JsonTypeInfo.Id.NAME, property = "kind")
    @JsonSubTypes({
        @Type(name = "above", value = PlannedCondition.Above.class),
        @Type(name = "below", value = PlannedCondition.Below.class),
        @Type(name = "wire-is", value = PlannedCondition.WireIs.class),
        @Type(name = "all-of", value = PlannedCondition.AllOf.class),
        @Type(name = "any-of", value = PlannedCondition.AnyOf.class),
        @Type(name = "not", value = PlannedCondition.Not.class),
        @Type(name = "always", value = PlannedCondition.Always.class),
        @Type(name = "eventually", value = PlannedCondition.Eventually.class),
        @Type(name = "until", value = PlannedCondition.Until.class)
    })
    private interface Condition {}

    @JsonTypeInfo(use = JsonTypeInfo.Id.NAME, property = "kind")
    @JsonSubTypes({
        @Type(name = "settled-level", value = Check.SettledLevel.class),
        @Type(name = "leak", value = Check.Leak.class),
        @Type(name = "crossing", value = Check.Crossing.class),
        @Type(name = "stays", value = Check.Stays.class),
        @Type(name = "wire-switches", value = Check.WireSwitches.class),
        @Type(name = "pulses", value = Check.Pulses.class),
        @Type(name = "never-holds", value = Check.NeverHolds.class),
        @Type(name = "temporal", value = Check.Temporal.class),
        @Type(name = "follows", value = Check.Follows.class),
        @Type(name = "comparison", value = Check.Comparison.class),
        @Type(name = "comes-before", value = Check.ComesBefore.class),
        @Type(name = "agreement", value = Check.Agreement.class),
        @Type(name = "movement", value = Check.Movement.class),
        @Type(name = "repeat", value = Check.Repeat.class),
        @Type(name = "change", value = Check.Change.class),
        @Type(name = "response", value = Check.Response.class),
        @Type(name = "onset", value = Check.Onset.class),
        @Type(name = "steepest-rate", value = Check.SteepestRate.class),
        @Type(name = "travel", value = Check.Travel.class),
        @Type(name = "duration", value = Check.Duration.class),
        @Type(name = "recovery", value = Check.Recovery.class),
        @Type(name = "departure", value = Check.Departure.class),
        @Type(name = "staircase", value = Check.Staircase.class)
    })
    private interface Measured {}

    @JsonTypeInfo(use = JsonTypeInfo.Id.NAME, property = "kind")
    @JsonSubTypes({
        @Type(name = "simulated", value = LinkChoice.Simulated.class),
        @Type(name = "serial", value = LinkChoice.Serial.class),
        @Type(name = "mqtt", value = LinkChoice.Mqtt.class),
        @Type(name = "modbus", value = LinkChoice.Modbus.class)
    })
    private interface Link {}
}
