package dev.lapwing.judge;

import static dev.lapwing.measure.HandMade.PSI;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Verdict;
import dev.lapwing.measure.CheckWatch;
import dev.lapwing.measure.ConditionWatch;
import dev.lapwing.measure.HandMade;
import dev.lapwing.measure.Limits;
import dev.lapwing.naming.Keys;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import dev.lapwing.plan.Course.Trouble.Kind;
import dev.lapwing.plan.Plan;
import dev.lapwing.plan.PlanStep;
import dev.lapwing.plan.PlannedCondition;
import dev.lapwing.plan.PlannedExpectation;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.signal.GrowingTrace;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;

class JudgeTest {
    private static final Signal REAR = Keys.signal("brake-cylinder@4").orElseThrow();
    private static final PlannedExpectation FILLS = new PlannedExpectation(
            "rear-cylinder-fills",
            "the rear cylinder rises above 45 psi within 3 s",
            "s.yaml:8:9",
            new Check.Crossing(REAR, true, 45 * PSI, 5, Limits.atMost(Dimension.TIME, 3)));

    private static HandMade fill(double psiPerSecond) {
        return new HandMade(10, 3).pressure("brake-cylinder@4", t -> Math.max(0, Math.min(50, psiPerSecond * (t - 1))));
    }

    private static Bench course() {
        return new Bench().drives(1, "handle", 40).watched("rear-cylinder-fills", 1, 6, true);
    }

    @Test
    void aHealthyFillPassesWithItsMargin() {
        Finding finding = first(Bench.plan(List.of(FILLS)), fill(20), course());
        assertThat(finding.verdict()).isEqualTo(Verdict.PASS);
        assertThat(finding.margin().orElseThrow()).isCloseTo(0.75, within(0.01));
        assertThat(finding.because())
                .startsWith("Time for brake cylinder at vehicle 4 to rise above 45 psi was 2.2")
                .contains("± ", "(k = 2), limit at most 3 s: inside by 0.7")
                .endsWith(" s.");
        assertThat(finding.measured().orElseThrow().components())
                .anyMatch(c -> c.source().equals("stimulus stamp") && c.standard() != 0);
        assertThat(finding.marks()).hasSize(1);
    }

    @Test
    void aSlowFillFailsWithItsMargin() {
        Finding finding = first(Bench.plan(List.of(FILLS)), fill(12), course());
        assertThat(finding.verdict()).isEqualTo(Verdict.FAIL);
        assertThat(finding.margin().orElseThrow()).isCloseTo(-0.75, within(0.02));
        assertThat(finding.because()).contains("outside by 0.7");
    }

    @Test
    void aFillAtTheLimitIsInconclusive() {
        Finding finding = first(Bench.plan(List.of(FILLS)), fill(45 / 2.999), course());
        assertThat(finding.verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(finding.because()).contains("conditional");
    }

    @Test
    void aUnitThatNeverAnswersFailsWithWhatWasMeasuredInstead() {
        Finding finding = first(Bench.plan(List.of(FILLS)), fill(0.001), course());
        assertThat(finding.verdict()).isEqualTo(Verdict.FAIL);
        assertThat(finding.because()).contains("did not rise above 45 psi within 5 s; it reached");
        assertThat(finding.measured().orElseThrow().dimension()).isEqualTo(Dimension.PRESSURE);
        assertThat(finding.margin()).isEmpty();
    }

    @Test
    void aLevelMissedByLessThanTheDoubtOfItIsInconclusive() {
        HandMade run =
                new HandMade(10, 3).pressure("brake-cylinder@4", t -> Math.max(0, Math.min(44.85, 20 * (t - 1))));
        Finding finding = first(Bench.plan(List.of(FILLS)), run, course());
        assertThat(finding.verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(finding.because()).contains("conditional fail");
    }

    @Test
    void whatWasNotMeasuredSaysWhatWouldMendIt() {
        HandMade run = fill(20).lost("brake-cylinder@4", 1.5, 1.6);
        Finding finding = first(Bench.plan(List.of(FILLS)), run, course());
        assertThat(finding.verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(finding.because()).startsWith("Not measured: ").contains("lost for 100 ms", "run it again");
        assertThat(finding.measured()).isEmpty();
    }

    @Test
    void anExpectationThatWasNeverWatchedIsNoneAndTheRunSaysWhy() {
        Bench cut = new Bench().trouble(Kind.NOT_REACHED, 2, "The pipe was not charged within 200 s.");
        List<Finding> findings = judge(Bench.plan(List.of(FILLS)), fill(20), cut);
        assertThat(findings.get(0).verdict()).isEqualTo(Verdict.NONE);
        assertThat(findings.get(0).because()).contains("The pipe was not charged within 200 s.");
        assertThat(Verdict.greatest(findings, Finding::verdict)).isEqualTo(Verdict.INCONCLUSIVE);
    }

    @Test
    void aCompleteRunInWhichItWasNotWatchedIsNoPass() {
        List<Finding> findings = judge(Bench.plan(List.of(FILLS)), fill(20), new Bench().drives(1, "handle", 40));
        assertThat(findings.get(0).verdict()).isEqualTo(Verdict.INCONCLUSIVE);
    }

    @Test
    void aTimeFromWhatWasWaitedForOwesToTheDoubtOfThat() {
        // The level waited for is known to 0.1 psi (k = 1) and passed at 2 psi/s, so its instant to 50 ms.
        HandMade run = new HandMade(10, 3)
                .pressure("brake-pipe@1", t -> 70 - 2 * t)
                .pressure("brake-cylinder@4", t -> Math.max(0, Math.min(50, 20 * (t - 1))));
        Bench course = new Bench().drives(0.5, "handle", 40).watched("rear-cylinder-fills", 1, 6, true);
        Signal pipe = Keys.signal("brake-pipe@1").orElseThrow();
        Plan waiting = waiting(new PlannedCondition.Below(pipe, 68 * PSI));

        Finding finding = first(waiting, run, course);

        assertThat(finding.measured().orElseThrow().components())
                .filteredOn(c -> c.source().equals("stimulus stamp"))
                .singleElement()
                .satisfies(c -> assertThat(Math.abs(c.standard())).isCloseTo(0.050, within(0.005)));
    }

    @Test
    void aTimeFromWhatWasWaitedForOwesToWhatWasLostBeforeIt() {
        // The wire came on somewhere from 0.1 s on; its edge was lost, and its level told at 1 s. It is 3.25 s or less.
        PlannedCondition on = new PlannedCondition.WireIs(new Signal.Wire("holding"), true);
        Bench course = new Bench().drives(0.05, "handle", 40).watched("rear-cylinder-fills", 1, 6, true);
        HandMade run = fill(20).wire("holding", 1);
        assertThat(first(waiting(on), run, course).verdict()).isEqualTo(Verdict.PASS);

        Finding finding = first(waiting(on), run.lost("wire/holding", 0.1, 1), course);

        assertThat(finding.verdict()).as(finding.because()).isEqualTo(Verdict.INCONCLUSIVE);
    }

    @Test
    void aTimeFromWhatWasWaitedForOwesToAHoleBeforeIt() {
        // The pipe fell at 0.15 s; nothing was reported of it from 0.1 s to 1 s. The cylinder took 3.1 s from there.
        Signal pipe = Keys.signal("brake-pipe@1").orElseThrow();
        GrowingTrace seen = new GrowingTrace();
        for (int ms = 0; ms < 10_000; ms += ms == 100 ? 900 : 2) {
            seen.append(ms * 1000L, (ms < 150 ? 70 : 60) * PSI + ms % 3);
        }
        HandMade run = fill(20).trace(pipe, seen);
        PlannedCondition fallen = new PlannedCondition.Below(pipe, 60.5 * PSI);
        ConditionWatch watch = ConditionWatch.of(fallen, 0, run);
        watch.advance();
        double origin = watch.firstHeldUs().orElseThrow() * 1e-6;
        Bench course = new Bench().drives(0.05, "handle", 40).watched("rear-cylinder-fills", origin, 6, true);

        Finding finding = first(waiting(fallen), run, course);

        assertThat(finding.verdict()).as(origin + " s: " + finding.because()).isEqualTo(Verdict.INCONCLUSIVE);
    }

    @Test
    void aStreamThatStopsInTheLastSecondLeavesWhatLastsUntilThenUnmeasured() {
        PlannedExpectation stays = new PlannedExpectation(
                "stays",
                "stays",
                "s.yaml:9:9",
                new Check.Stays(REAR, OptionalDouble.of(9), Limits.atMost(Dimension.PRESSURE, 53 * PSI)));
        Bench course = new Bench().drives(0.5, "handle", 40).watched("stays", 0.5, 9.6, true);
        assertThat(first(Bench.plan(List.of(stays)), fill(20), course).verdict())
                .isEqualTo(Verdict.PASS);

        Finding finding = first(Bench.plan(List.of(stays)), fill(20).until(9.1), course);

        assertThat(finding.verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(finding.because()).contains("no samples of", "came for 402 ms");
    }

    private static Plan waiting(PlannedCondition condition) {
        Plan plan = Bench.plan(List.of(FILLS));
        return new Plan(
                plan.sequence(),
                plan.title(),
                plan.purpose(),
                plan.fixture(),
                plan.unit(),
                plan.acceptance(),
                plan.continues(),
                plan.wiring(),
                plan.bench(),
                plan.prepare(),
                List.of(new PlanStep.WaitUntil(condition, 9_000_000, "wait", "s:1:1")),
                plan.steps(),
                plan.tidyUp(),
                plan.throughout(),
                plan.left());
    }

    @Test
    void aRunThatWasCutShortIsAnErrorWhateverPassed() {
        Bench stopped = course().trouble(Kind.OPERATOR, 7, "Stopped by the operator.");
        List<Finding> findings = judge(Bench.plan(List.of(FILLS)), fill(20), stopped);
        assertThat(findings.get(0).verdict()).isEqualTo(Verdict.PASS);
        assertThat(findings)
                .extracting(Finding::verdict)
                .containsExactlyInAnyOrder(Verdict.PASS, Verdict.NONE, Verdict.ERROR);
        assertThat(findings).extracting(Finding::id).doesNotHaveDuplicates();
    }

    @Test
    void whatWasLeftOutIsNoneWithItsReason() {
        List<Finding> findings = judge(Bench.plan(List.of(FILLS)), fill(20), course());
        assertThat(findings.get(1).id()).isEqualTo("left");
        assertThat(findings.get(1).verdict()).isEqualTo(Verdict.NONE);
        assertThat(findings.get(1).because()).isEqualTo("The unit has no such thing.");
    }

    @Test
    void aRememberedLevelServesALaterExpectation() {
        Check.SettledLevel settled =
                new Check.SettledLevel(REAR, 49 * PSI, 5, 0.5, Optional.of("full"), Limits.psi(-2, 2));
        Check.Repeat repeat = new Check.Repeat(REAR, "full", 6, 0.5, Limits.psi(-0.5, 0.5));
        Plan plan = Bench.plan(List.of(
                new PlannedExpectation("one", "one", "t:1:1", settled),
                new PlannedExpectation("two", "two", "t:2:1", repeat)));
        Bench course = new Bench().watched("one", 1, 7, true).watched("two", 1, 9, true);
        List<Finding> findings = judge(plan, fill(20), course);
        assertThat(findings.get(0).verdict()).isEqualTo(Verdict.PASS);
        assertThat(findings.get(1).verdict()).isEqualTo(Verdict.PASS);
        assertThat(findings.get(1).measured().orElseThrow().value() / PSI).isCloseTo(0, within(0.02));
    }

    /** Judged on what had been recorded when the watch said that nothing could change it, and on the whole run. */
    @Test
    void nothingThatComesAfterAWatchIsDecidedChangesTheFinding() {
        for (int seed = 0; seed < 20; seed++) {
            double rate = 5 + 2 * seed;
            HandMade whole =
                    new HandMade(20, seed).pressure("brake-cylinder@4", t -> Math.max(0, Math.min(50, rate * (t - 1))));
            double decided = 1;
            while (!CheckWatch.of(FILLS, 1_000_000, 0, whole.until(decided)).decided(Math.round(decided * 1e6))) {
                decided += 0.040;
            }
            Bench course = new Bench().drives(1, "handle", 40).watched("rear-cylinder-fills", 1, decided, true);
            Plan plan = Bench.plan(List.of(FILLS));
            assertThat(first(plan, whole, course))
                    .as("seed %d, decided at %f s", seed, decided)
                    .isEqualTo(first(plan, whole.until(decided), course));
            assertThat(decided).as("seed %d", seed).isLessThan(8.1);
        }
    }

    private static Finding first(Plan plan, HandMade run, Bench course) {
        return judge(plan, run, course).get(0);
    }

    private static List<Finding> judge(Plan plan, HandMade run, Bench course) {
        return new Judge(PressureDisplay.PSI).judge(plan, run, course.course());
    }
}
