package dev.lapwing.plan;

import static dev.lapwing.plan.Planned.expectations;
import static dev.lapwing.plan.Planned.plan;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.naming.Ability;
import dev.lapwing.naming.Actuator;
import dev.lapwing.naming.DesignOption;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.sequence.AlwaysProperty;
import dev.lapwing.sequence.Expectation;
import dev.lapwing.sequence.Sequence;
import dev.lapwing.sequence.Step;
import dev.lapwing.sequence.Stimulus;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class ResolverTest {

    private final Written w = new Written();

    @Test
    void loopsAreUnrolledInOrderAndNameTheirValues() {
        Plan plan = plan(w.forEach(
                "demand",
                List.of("10 %", "50 %"),
                w.forEach(
                        "vehicle",
                        List.of("1 times", "last"),
                        w.along("<demand>", "ep-application"),
                        w.expect("moves", moves("brake-cylinder at <vehicle>")))));

        assertThat(expectations(plan).map(PlannedExpectation::id))
                .containsExactly("moves[10 %, 1]", "moves[10 %, last]", "moves[50 %, 1]", "moves[50 %, last]");
        assertThat(expectations(plan)
                        .map(e -> ((Check.Movement) e.check()).signal().key()))
                .containsExactly("brake-cylinder@1", "brake-cylinder@4", "brake-cylinder@1", "brake-cylinder@4");
    }

    @Test
    void partsStandWhereTheyAreCalled() {
        Sequence sequence = Written.sequence(
                Map.of("open-cab", List.of(w.handle("release"), w.waiting("3 s"))),
                new Step.CallPart("open-cab", w.place()),
                w.check());

        assertThat(plan(Models.unit(), sequence).steps().stream().map(PlanStep::text))
                .containsExactly("handle to release", "wait 3 s", "expect charged");
    }

    @Test
    void everyVehicleGetsAFindingOfItsOwn() {
        Plan plan = plan(w.expect("charged", w.settlesAt("brake-pipe at every", "charged-band", null)));

        assertThat(expectations(plan).map(PlannedExpectation::id))
                .containsExactly("charged@1", "charged@2", "charged@3", "charged@4");
    }

    @Test
    void aVehicleIsNotComparedWithItself() {
        Plan plan = plan(w.expect("agree", agreesWithTheFirst()));

        assertThat(expectations(plan).map(PlannedExpectation::id)).containsExactly("agree@2", "agree@3", "agree@4");
    }

    @Test
    void aVehicleAloneHasNoneToBeComparedWith() {
        Plan plan = plan(Models.alone(), Written.sequence(w.expect("agree", agreesWithTheFirst()), w.check()));

        assertThat(expectations(plan).map(PlannedExpectation::id)).containsExactly("charged");
        assertThat(plan.left())
                .filteredOn(left -> left.id().equals("agree"))
                .extracting(Plan.LeftOut::why)
                .containsExactly("there is no other vehicle to compare with");
    }

    @Test
    void everyVehicleInAWaitMeansAllOfThem() {
        Plan plan = plan(
                new Step.WaitUntil(w.above("brake-pipe at every", "charged-level"), w.operand("200 s"), w.place()),
                w.check());

        PlanStep.WaitUntil wait = (PlanStep.WaitUntil) plan.steps().get(0);
        assertThat(((PlannedCondition.AllOf) wait.condition()).parts()).hasSize(4);
        assertThat(wait.atMostUs()).isEqualTo(200_000_000);
        assertThat(wait.text()).isEqualTo("wait until brake pipe at every vehicle above 65 psi, at most 200 s");
    }

    @Test
    void everyVehicleInWhatMustNeverBeMeansEachByItself() {
        Plan plan = plan(w.expect(
                "no-overcharge",
                new Expectation.Never(
                        w.above("brake-pipe at every", "75 psi"), Optional.empty(), Optional.of(w.operand("5 s")))));

        assertThat(expectations(plan).map(PlannedExpectation::id)).hasSize(4);
        assertThat(expectations(plan).map(e -> ((Check.NeverHolds) e.check()).condition()))
                .allMatch(PlannedCondition.Above.class::isInstance);
    }

    @Test
    void whatTheUnitLacksIsListedWithTheReasonAndNotRun() {
        Plan plan = plan(
                Models.unit(),
                Written.needing(
                        Ability.VIGILANCE,
                        w.handle("release"),
                        w.expect("charged", w.settlesAt("brake-pipe at last", "no-such-band", null))));

        assertThat(plan.none()).isTrue();
        assertThat(plan.throughout()).isEmpty();
        assertThat(plan.left()).singleElement().satisfies(left -> {
            assertThat(left.id()).isEqualTo("charged");
            assertThat(left.why()).isEqualTo("the unit has no vigilance");
            assertThat(left.sentence()).contains("settles at or below no-such-band");
        });
    }

    @Test
    void stepsForAnotherDesignAreLeftOutWithTheReason() {
        Plan plan = plan(
                new Step.OnlyIf(
                        DesignOption.DEADMAN_DELAYED,
                        List.of(
                                w.doing(new Stimulus.WireFeed("not-there", true, w.place())),
                                w.expect("later", w.settlesAt("brake-pipe at last", "charged-band", null))),
                        w.place()),
                new Step.OnlyIf(DesignOption.DEADMAN_INSTANT, List.of(w.check()), w.place()));

        assertThat(expectations(plan).map(PlannedExpectation::id)).containsExactly("charged");
        assertThat(plan.left())
                .filteredOn(left -> left.id().equals("later"))
                .extracting(Plan.LeftOut::why)
                .containsExactly("the unit's deadman-timing is instant, not delayed");
    }

    @Test
    void whereNothingIsLeftToAskNothingIsRun() {
        Plan plan =
                plan(w.handle("release"), new Step.OnlyIf(DesignOption.DEADMAN_DELAYED, List.of(w.check()), w.place()));

        assertThat(plan.none()).isTrue();
        assertThat(plan.left()).hasSize(1);
    }

    @Test
    void aLevelIsRememberedForEachVehicleByItself() {
        Plan plan = plan(
                w.expect("before", w.settlesAt("brake-pipe at every", "charged-band", "at rest")),
                w.expect("after", w.repeats("brake-pipe at every", "at rest")));

        assertThat(expectations(plan)
                        .filter(e -> e.id().equals("after@3"))
                        .map(e -> ((Check.Repeat) e.check()).remembered()))
                .containsExactly("at rest@3");
    }

    @Test
    void aLoopsValueStandsInWhatIsRemembered() {
        Plan plan = plan(
                w.forEach(
                        "demand",
                        List.of("10 %", "20 %"),
                        w.along("<demand>", "ep-application"),
                        w.expect("up", w.settlesAtLaw("self-lapping", "going up, <demand>"))),
                w.forEach(
                        "demand",
                        List.of("20 %", "10 %"),
                        w.along("<demand>", "ep-application"),
                        w.expect("down", w.repeats("brake-cylinder at last", "going up, <demand>"))));

        assertThat(expectations(plan)
                        .filter(e -> e.check() instanceof Check.Repeat)
                        .map(e -> ((Check.Repeat) e.check()).remembered()))
                .containsExactly("going up, 20 %", "going up, 10 %");
    }

    @Test
    void whatRepeatsALeftOutLevelIsLeftOutAsWell() {
        Plan plan = plan(
                new Step.OnlyIf(
                        DesignOption.DEADMAN_DELAYED,
                        List.of(w.expect("before", w.settlesAt("brake-pipe at last", "charged-band", "at rest"))),
                        w.place()),
                w.expect("after", w.repeats("brake-pipe at last", "at rest")),
                w.check());

        assertThat(plan.left())
                .filteredOn(left -> left.id().equals("after"))
                .extracting(Plan.LeftOut::why)
                .containsExactly("the level that it is held against is not measured:"
                        + " the unit's deadman-timing is instant, not delayed");
    }

    @Test
    void alwaysOnPropertiesAreWatchedWhereTheyCanBe() {
        Plan plan = plan(
                Models.unit(EnumSet.allOf(Ability.class)),
                new Written.Shell()
                        .breaking(AlwaysProperty.NO_CHARGE_OUT_OF_RELEASE)
                        .around(w.check()));

        assertThat(plan.throughout().stream().map(Throughout::property))
                .containsExactly(
                        AlwaysProperty.APPLICATION_ONLY_WITH_HOLDING,
                        AlwaysProperty.NO_TRACTION_WITHOUT_DEADMAN,
                        AlwaysProperty.CYLINDER_HOLDS_IN_LAP,
                        AlwaysProperty.CYLINDER_BELOW_LIMIT,
                        AlwaysProperty.DUMP_EMPTIES_THE_PIPE,
                        AlwaysProperty.EP_RELEASE_EMPTIES_THE_CYLINDER,
                        AlwaysProperty.LAMP_ONLY_WITH_SUPPLY);
        assertThat(plan.left().stream().map(left -> left.id() + ": " + left.why()))
                .containsExactly(
                        "throughout/no-charge-out-of-release: the sequence breaks it on purpose",
                        "throughout/vigilance-stages-in-order: the unit has no warning light wire");
    }

    @Test
    void alwaysOnFiguresBecomeLimitsInBaseUnits() {
        Plan plan = plan(Models.unit(), Written.sequence(w.check()));

        Throughout lamp = plan.throughout().stream()
                .filter(each -> each.property() == AlwaysProperty.LAMP_ONLY_WITH_SUPPLY)
                .findFirst()
                .orElseThrow();
        assertThat(lamp.limits().get("always-lamp-supply").upper()).hasValue(0.7 * 110);
        assertThat(lamp.limits().get("always-lamp-time").upper()).hasValue(1);
    }

    @Test
    void whatABenchOrUnitLacksLeavesPropertiesOutWithTheReason() {
        Resolution resolution = Resolver.resolve(
                Written.sequence(w.check()),
                Models.unit(EnumSet.noneOf(Ability.class)),
                Models.bench(List.of("brake-pipe@4"), List.of("handle")),
                PressureDisplay.PSI);

        Plan plan = ((Resolution.Resolved) resolution).plan();
        assertThat(plan.throughout()).isEmpty();
        assertThat(plan.left().stream().map(Plan.LeftOut::why))
                .contains("the unit has no deadman", "the bench reads no brake cylinder");
    }

    @Test
    void tidyUpAndPreparationAreResolvedToo() {
        Plan plan = plan(
                Models.unit(),
                new Written.Shell()
                        .preparing(w.handle("release"))
                        .tidyingUp(w.doing(new Stimulus.Supply("ep", w.operand("1 Un"), w.place())))
                        .around(w.expect("laps", w.settlesAtLaw("self-lapping"))));

        assertThat(plan.prepare()).hasSize(1);
        assertThat(plan.tidyUp()).singleElement().satisfies(step -> {
            assertThat(step.text()).isEqualTo("ep supply on");
            assertThat(((PlanStep.Drive) step).values()).containsEntry(new Actuator.Supply("ep"), 110.0);
        });
    }

    @Test
    void thePlanSaysWhereItComesFrom() {
        Plan plan = plan(w.check());

        assertThat(plan.acceptance()).isEqualTo("HLR-T-1, approved by A. Tester");
        assertThat(plan.fixture()).isEqualTo("small");
        assertThat(plan.steps().get(0).place()).startsWith("sequences/test.yaml:");
    }

    @Test
    void theSameFilesGiveTheSamePlan() {
        Sequence sequence = Written.sequence(w.handle("full-ep"), w.check());

        assertThat(plan(Models.unit(), sequence)).isEqualTo(plan(Models.unit(), sequence));
    }

    private Expectation agreesWithTheFirst() {
        return new Expectation.Agrees(
                w.signal("brake-cylinder at every"),
                w.signal("brake-cylinder at first"),
                w.operand("lapping-tolerance"),
                w.operand("3 s"),
                w.operand("2 s"));
    }

    private Expectation moves(String signal) {
        return new Expectation.Moves(w.signal(signal), w.operand("step-up"), w.operand("3 s"), w.operand("2 s"));
    }
}
