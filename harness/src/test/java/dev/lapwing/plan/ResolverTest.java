package dev.lapwing.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lapwing.fixture.Ability;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.sequence.Sequence;
import dev.lapwing.sequence.Step;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

class ResolverTest {

    private static final double PSI = Models.quantity("1 psi").base();

    private final Written w = new Written();

    @Test
    void anExpectationIsSaidWithItsLimitAndItsUnits() {
        PlannedExpectation fills = only(plan(
                w.handle("full-ep"),
                w.expect(
                        "rear-cylinder-fills",
                        w.risesAbove("brake-cylinder at last", "ep-rise-level", "ep-rise-time"))));

        assertThat(fills.id()).isEqualTo("rear-cylinder-fills");
        assertThat(fills.sentence())
                .isEqualTo("brake cylinder at vehicle 4 rises above 45 psi within 3 s (ep-rise-time)");
    }

    @Test
    void pressuresAreSaidInTheReadersUnit() {
        Sequence sequence = Written.sequence(
                w.handle("full-ep"),
                w.expect("fills", w.risesAbove("brake-cylinder at last", "ep-rise-level", "ep-rise-time")));

        Plan plan = resolved(Resolver.resolve(sequence, Models.unit(), Models.bench(), PressureDisplay.BAR));

        assertThat(only(plan).sentence()).contains("rises above 3.103 bar");
    }

    @Test
    void aLateCrossingIsWaitedForBeyondItsLimit() {
        Check.Crossing fills = (Check.Crossing) only(plan(
                        w.handle("full-ep"),
                        w.expect("fills", w.risesAbove("brake-cylinder at last", "45 psi", "ep-rise-time"))))
                .check();

        assertThat(fills.level()).isCloseTo(45 * PSI, within(1e-6));
        assertThat(fills.patience()).isEqualTo(2 * 3.0 + 2);
        assertThat(fills.limit().upper()).hasValue(3);
        assertThat(fills.limit().place()).isEqualTo(Models.FIXTURE.toString());
    }

    @Test
    void theLawIsTakenWhereTheHandleStands() {
        Plan plan = plan(w.forEach(
                "demand",
                List.of("10 %", "50 %"),
                w.along("<demand>", "ep-application"),
                w.expect("laps", w.settlesAtLaw("self-lapping"))));

        assertThat(planned(plan).map(PlannedExpectation::id)).containsExactly("laps[10 %]", "laps[50 %]");
        assertThat(planned(plan).map(e -> ((Check.SettledLevel) e.check()).target() / PSI))
                .usingElementComparator((a, b) -> Math.abs(a - b) < 1e-9 ? 0 : Double.compare(a, b))
                .containsExactly(5.0, 25.0);
        assertThat(planned(plan).map(PlannedExpectation::sentence))
                .last()
                .isEqualTo("brake cylinder at vehicle 4 settles within ± 2 psi (lapping-tolerance) of the"
                        + " self-lapping law, 25 psi, 3 s after the stimulus, mean over 2 s");
    }

    @Test
    void everyVehicleGetsAFindingOfItsOwn() {
        Plan plan = plan(
                w.handle("release"), w.expect("charged", w.settlesAt("brake-pipe at every", "charged-band", null)));

        assertThat(planned(plan).map(PlannedExpectation::id))
                .containsExactly("charged@1", "charged@2", "charged@3", "charged@4");
    }

    @Test
    void whatTheUnitLacksIsListedWithTheReasonAndNotRun() {
        Plan plan = resolved(Resolver.resolve(
                Written.needing(
                        Ability.VIGILANCE,
                        w.handle("release"),
                        w.expect("charged", w.settlesAt("brake-pipe at last", "no-such-band", null))),
                Models.unit(),
                Models.bench(),
                PressureDisplay.PSI));

        assertThat(plan.none()).isTrue();
        assertThat(plan.left()).singleElement().satisfies(left -> {
            assertThat(left.id()).isEqualTo("charged");
            assertThat(left.why()).isEqualTo("the unit has no vigilance");
            assertThat(left.sentence()).contains("settles at or below no-such-band");
        });
    }

    private Plan plan(Step... steps) {
        return resolved(Resolver.resolve(Written.sequence(steps), Models.unit(), Models.bench(), PressureDisplay.PSI));
    }

    private static Plan resolved(Resolution resolution) {
        assertThat(resolution).isInstanceOf(Resolution.Resolved.class);
        return ((Resolution.Resolved) resolution).plan();
    }

    private static PlannedExpectation only(Plan plan) {
        List<PlannedExpectation> all = planned(plan).toList();
        assertThat(all).hasSize(1);
        return all.get(0);
    }

    private static Stream<PlannedExpectation> planned(Plan plan) {
        return plan.steps().stream().flatMap(ResolverTest::in);
    }

    private static Stream<PlannedExpectation> in(PlanStep step) {
        if (step instanceof PlanStep.Expect expect) {
            return expect.expectations().stream();
        }
        return step instanceof PlanStep.While during
                ? Stream.concat(
                        during.expectations().stream(), during.steps().stream().flatMap(ResolverTest::in))
                : Stream.empty();
    }
}
