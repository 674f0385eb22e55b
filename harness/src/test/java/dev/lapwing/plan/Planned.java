package dev.lapwing.plan;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.sequence.Sequence;
import dev.lapwing.sequence.Step;
import java.util.List;
import java.util.stream.Stream;

/** Resolves what has no mistake, for tests that look at the plan. */
final class Planned {
    private Planned() {}

    static Plan plan(Step... steps) {
        return plan(Models.unit(), Written.sequence(steps));
    }

    static Plan plan(Subject unit, Sequence sequence) {
        return plan(unit, sequence, PressureDisplay.PSI);
    }

    static Plan plan(Subject unit, Sequence sequence, PressureDisplay pressures) {
        Resolution resolution = Resolver.resolve(sequence, unit, Models.bench(), pressures);
        assertThat(resolution).isInstanceOf(Resolution.Resolved.class);
        return ((Resolution.Resolved) resolution).plan();
    }

    static PlannedExpectation only(Plan plan) {
        List<PlannedExpectation> all = expectations(plan).toList();
        assertThat(all).hasSize(1);
        return all.get(0);
    }

    static Stream<PlannedExpectation> expectations(Plan plan) {
        return plan.steps().stream().flatMap(Planned::in);
    }

    private static Stream<PlannedExpectation> in(PlanStep step) {
        if (step instanceof PlanStep.Expect expect) {
            return expect.expectations().stream();
        }
        return step instanceof PlanStep.While during
                ? Stream.concat(
                        during.expectations().stream(), during.steps().stream().flatMap(Planned::in))
                : Stream.empty();
    }
}
