package dev.lapwing.plan;

import static dev.lapwing.plan.Planned.expectations;
import static dev.lapwing.plan.Planned.only;
import static dev.lapwing.plan.Planned.plan;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lapwing.naming.Actuator;
import dev.lapwing.naming.SwitchKind;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.sequence.Condition;
import dev.lapwing.sequence.Expectation;
import dev.lapwing.sequence.SignalRef;
import dev.lapwing.sequence.Stimulus;
import dev.lapwing.uncertainty.DecisionRule;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class ChecksTest {

    private static final double PSI = Models.quantity("1 psi").base();

    private final Written w = new Written();

    @Test
    void aLateCrossingIsWaitedForBeyondItsLimit() {
        Check.Crossing fills = (Check.Crossing) check(w.risesAbove("brake-cylinder at last", "45 psi", "ep-rise-time"));

        assertThat(fills.level()).isCloseTo(45 * PSI, within(1e-6));
        assertThat(fills.patience()).isEqualTo(2 * 3.0 + 2);
        assertThat(fills.watchSeconds()).hasValue(fills.patience());
        assertThat(fills.limit().upper()).hasValue(3);
        assertThat(fills.limit().place()).isEqualTo(Models.FIXTURE.toString());
    }

    @Test
    void whatMayNotComeSoonIsStillWaitedFor() {
        Check.Crossing late = (Check.Crossing) check(w.risesAbove("brake-cylinder at last", "45 psi", "not-too-soon"));

        assertThat(late.limit().upper()).isEmpty();
        assertThat(late.patience()).isGreaterThan(30);
    }

    @Test
    void theLawIsTakenWhereTheHandleStands() {
        Plan plan = plan(w.forEach(
                "demand",
                List.of("10 %", "50 %", "100 %"),
                w.along("<demand>", "ep-application"),
                w.expect("laps", w.settlesAtLaw("self-lapping"))));

        assertThat(expectations(plan).map(e -> Math.rint(((Check.SettledLevel) e.check()).target() / PSI * 1e6) / 1e6))
                .containsExactly(5.0, 25.0, 50.0);
    }

    @Test
    void aPositionAtTheEndOfAnArcIsAPlaceOnIt() {
        Plan plan = plan(w.handle("full-ep"), w.expect("laps", w.settlesAtLaw("self-lapping")));

        assertThat(((Check.SettledLevel) only(plan).check()).target()).isCloseTo(50 * PSI, within(1e-6));
    }

    @Test
    void aLowerEndBelowAtmosphereIsNoMistake() {
        Plan plan = plan(w.handle("release"), w.expect("empty", w.settlesAtLaw("self-lapping")));

        assertThat(only(plan).check().limit().lower())
                .hasValue(Models.quantity("-2 psi").base());
    }

    @Test
    void countsAreDecidedExactly() {
        Check pulses = check(new Expectation.PulsesAtMost(
                wire("application"), w.operand("lapping-pulses"), Optional.of(w.operand("5 s"))));

        assertThat(pulses.limit().rule()).isEqualTo(DecisionRule.SIMPLE);
        assertThat(pulses.limit().upper()).hasValue(2);
    }

    @Test
    void neverIsNotOnce() {
        Check.NeverHolds never = (Check.NeverHolds) check(new Expectation.Never(
                w.wire("traction", true), Optional.of(w.operand("20 ms")), Optional.of(w.operand("5 s"))));

        assertThat(never.limit().upper()).hasValue(0);
        assertThat(never.longerThan()).isEqualTo(0.02);
        assertThat(never.watchSeconds()).hasValue(5);
    }

    @Test
    void theWrongOrderIsOutsideEvenWhereOnlyAnUpperEndWasGiven() {
        Condition first = w.wire("traction", false);
        Check before = check(new Expectation.ComesBefore(
                first, w.above("brake-cylinder at last", "5 psi"), w.operand("ep-rise-time"), w.operand("20 s")));

        assertThat(before.limit().margin(-0.1)).isNegative();
        assertThat(before.limit().margin(0.1)).isPositive();
        assertThat(before.watchSeconds()).hasValue(20);
    }

    @Test
    void whatLastsAsLongAsItsStepsHasNoTimeOfItsOwn() {
        Plan plan = plan(w.meanwhile(
                "untouched",
                w.stays("brake-pipe at last", "charged-band", null),
                w.handle("full-ep"),
                w.waiting("3 s")));

        assertThat(only(plan).check().watchSeconds()).isEmpty();
        assertThat(((PlanStep.While) plan.steps().get(0)).steps()).hasSize(2);
    }

    @Test
    void aMoveIsMeasuredFromShortlyBeforeTheStimulus() {
        Check.Movement moves = (Check.Movement) check(new Expectation.Moves(
                w.signal("brake-cylinder at last"), w.operand("step-up"), w.operand("3 s"), w.operand("5 s")));

        assertThat(moves.before()).isEqualTo(1);
        assertThat(moves.watchSeconds()).hasValue(8);
    }

    @Test
    void aChangeIsAveragedOverLittleAsItMayBeMoving() {
        Check.Change changes = (Check.Change) check(new Expectation.Changes(
                w.signal("brake-pipe at last"), w.operand("step-down"), w.operand("1 s"), w.operand("1.1 s")));

        assertThat(changes.over()).isCloseTo(0.05, within(1e-12));
    }

    @Test
    void aLeakIsARateOrAFall() {
        assertThat(check(holds("pipe-leak")).limit().upper().getAsDouble()).isCloseTo(PSI / 60, within(1e-9));
        assertThat(check(holds("cylinder-leak")).limit().upper().getAsDouble()).isCloseTo(1.5 * PSI, within(1e-6));
    }

    @Test
    void sharesOfTheNominalSupplyBecomeVolts() {
        Check settles = check(w.settlesAt("supply ep", "lamp-supply", null));

        assertThat(settles.limit().lower()).hasValue(0.7 * 110);
        assertThat(settles.limit().dimension()).isEqualTo(Dimension.VOLTAGE);
    }

    @Test
    void theHandleIsDrivenToAnAngleOverATime() {
        PlanStep.Drive drive = (PlanStep.Drive) plan(
                        w.doing(new Stimulus.MoveHandleAlong(
                                w.operand("30 %"), "ep-application", Optional.of(w.operand("500 ms")), w.place())),
                        w.check())
                .steps()
                .get(0);

        assertThat(drive.values().get(new Actuator.Handle())).isCloseTo(12, within(1e-9));
        assertThat(drive.overUs()).isEqualTo(500_000);
    }

    @Test
    void theReverserIsTwoContacts() {
        PlanStep.Drive drive =
                (PlanStep.Drive) plan(w.doing(new Stimulus.Reverser(Stimulus.Direction.REVERSE, w.place())), w.check())
                        .steps()
                        .get(0);

        assertThat(drive.values())
                .containsEntry(new Actuator.Switch(SwitchKind.REVERSER, "forward"), 0.0)
                .containsEntry(new Actuator.Switch(SwitchKind.REVERSER, "reverse"), 1.0);
    }

    private Check check(Expectation expectation) {
        return only(plan(w.expect("it", expectation))).check();
    }

    private Expectation holds(String leak) {
        return new Expectation.Holds(
                w.signal("brake-pipe at last"), w.operand(leak), w.operand("60 s"), w.operand("60 s"));
    }

    private SignalRef.Wire wire(String name) {
        return (SignalRef.Wire) w.signal("wire " + name);
    }
}
