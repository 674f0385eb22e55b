package dev.lapwing.judge;

import static dev.lapwing.sequence.AlwaysProperty.APPLICATION_ONLY_WITH_HOLDING;
import static dev.lapwing.sequence.AlwaysProperty.CYLINDER_BELOW_LIMIT;
import static dev.lapwing.sequence.AlwaysProperty.CYLINDER_HOLDS_IN_LAP;
import static dev.lapwing.sequence.AlwaysProperty.DUMP_EMPTIES_THE_PIPE;
import static dev.lapwing.sequence.AlwaysProperty.EP_RELEASE_EMPTIES_THE_CYLINDER;
import static dev.lapwing.sequence.AlwaysProperty.LAMP_ONLY_WITH_SUPPLY;
import static dev.lapwing.sequence.AlwaysProperty.NO_CHARGE_OUT_OF_RELEASE;
import static dev.lapwing.sequence.AlwaysProperty.NO_TRACTION_WITHOUT_DEADMAN;
import static dev.lapwing.sequence.AlwaysProperty.VIGILANCE_STAGES_IN_ORDER;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Verdict;
import dev.lapwing.measure.HandMade;
import dev.lapwing.naming.Keys;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Course.Trouble.Kind;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.sequence.AlwaysProperty;
import dev.lapwing.signal.GrowingTrace;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** Each always-on property with a run that keeps it, one that breaks it, and one in which it did not arise. */
class ThroughoutTest {

    @ParameterizedTest
    @EnumSource(
            value = AlwaysProperty.class,
            names = {"CYLINDER_BELOW_LIMIT"},
            mode = EnumSource.Mode.EXCLUDE)
    void whatDidNotAriseIsNone(AlwaysProperty property) {
        HandMade run = new HandMade(5, 1)
                .pressure("brake-pipe@1", t -> 70)
                .pressure("brake-cylinder@1", t -> 0)
                .supply("supply/ep", t -> 110)
                .wire("application")
                .wire("holding")
                .wire("traction")
                .wire("warning-light")
                .wire("warning-sounder")
                .wire("ep-supply-lamp");
        Bench course = new Bench().drives(0.5, "master-switch", 1);
        Finding finding = judge(property, run, course);
        assertThat(finding.verdict()).isEqualTo(Verdict.NONE);
        assertThat(finding.because()).isEqualTo("It did not arise in this run.");
    }

    @Test
    void applicationNeedsHolding() {
        HandMade good = new HandMade(5, 1).wire("application", 1.005, 2).wire("holding", 1, 3);
        Finding kept = judge(APPLICATION_ONLY_WITH_HOLDING, good, new Bench());
        assertThat(kept.verdict()).isEqualTo(Verdict.PASS);
        assertThat(kept.margin().orElseThrow()).isCloseTo(0.020, within(1e-9));
        HandMade bad = new HandMade(5, 1).wire("application", 1, 2).wire("holding", 1.050, 3);
        Finding broken = judge(APPLICATION_ONLY_WITH_HOLDING, bad, new Bench());
        assertThat(broken.verdict()).isEqualTo(Verdict.FAIL);
        assertThat(broken.margin().orElseThrow()).isCloseTo(-0.030, within(1e-9));
        assertThat(broken.marks()).hasSize(2);
    }

    @Test
    void anApplicationWireThatTheBenchFeedsIsNotTheUnitsFault() {
        HandMade fed = new HandMade(5, 1).wire("application", 1, 2).wire("holding");
        Bench course = new Bench().drives(0.999, "wire-feed/application", 1).drives(2.001, "wire-feed/application", 0);
        assertThat(judge(APPLICATION_ONLY_WITH_HOLDING, fed, course).verdict()).isEqualTo(Verdict.PASS);
    }

    @Test
    void tractionNeedsTheDeadman() {
        Bench course = new Bench()
                .drives(0.1, "deadman", 1)
                .drives(0.2, "reverser/forward", 1)
                .drives(2, "deadman", 0);
        HandMade good = new HandMade(5, 1).wire("traction", 1, 2.080);
        Finding kept = judge(NO_TRACTION_WITHOUT_DEADMAN, good, course);
        assertThat(kept.verdict()).isEqualTo(Verdict.PASS);
        assertThat(kept.measured().orElseThrow().value()).isCloseTo(0.080, within(1e-9));
        HandMade bad = new HandMade(5, 1).wire("traction", 1, 4);
        assertThat(judge(NO_TRACTION_WITHOUT_DEADMAN, bad, course).verdict()).isEqualTo(Verdict.FAIL);
    }

    private static Bench lapped() {
        return new Bench().drives(0, "master-switch", 1).drives(1, "handle", Bench.LAP);
    }

    @Test
    void thePipeIsNotChargedInLap() {
        // It levels out by 4 psi in the first seconds, which is no charging.
        HandMade good = new HandMade(60, 1).pressure("brake-pipe@1", t -> 54 - 4 * StrictMath.exp(-(t - 1)));
        Finding kept = judge(NO_CHARGE_OUT_OF_RELEASE, good, lapped());
        assertThat(kept.verdict()).isEqualTo(Verdict.PASS);
        HandMade bad = new HandMade(60, 1).pressure("brake-pipe@1", t -> 50 + 0.1 * t);
        Finding broken = judge(NO_CHARGE_OUT_OF_RELEASE, bad, lapped());
        assertThat(broken.verdict()).isEqualTo(Verdict.FAIL);
        assertThat(broken.measured().orElseThrow().value() / HandMade.PSI).isCloseTo(5.4, within(0.1));
    }

    @Test
    void aPipeThatAnotherCabChargesIsNotTheUnitsFault() {
        HandMade run = new HandMade(60, 1).pressure("brake-pipe@1", t -> 50 + 0.1 * t);
        Bench course = lapped().drives(1.5, "other-cab-charge/far", 1);
        assertThat(judge(NO_CHARGE_OUT_OF_RELEASE, run, course).verdict()).isEqualTo(Verdict.NONE);
    }

    @Test
    void aCylinderHoldsInLap() {
        HandMade good =
                new HandMade(120, 1).pressure("brake-cylinder@1", t -> 40 + 2 * StrictMath.exp(-t / 8) - 0.3 * t / 60);
        assertThat(judge(CYLINDER_HOLDS_IN_LAP, good, lapped()).verdict()).isEqualTo(Verdict.PASS);
        HandMade bad = new HandMade(120, 1).pressure("brake-cylinder@1", t -> 40 - 3 * t / 60);
        Finding broken = judge(CYLINDER_HOLDS_IN_LAP, bad, lapped());
        assertThat(broken.verdict()).isEqualTo(Verdict.FAIL);
        assertThat(broken.because()).contains("psi/min");
    }

    @Test
    void noCylinderExceedsItsLimit() {
        HandMade good =
                new HandMade(20, 1).pressure("brake-cylinder@1", t -> 50).pressure("brake-cylinder@4", t -> 50);
        assertThat(judge(CYLINDER_BELOW_LIMIT, good, new Bench()).verdict()).isEqualTo(Verdict.PASS);
        HandMade bad = new HandMade(20, 1)
                .pressure("brake-cylinder@1", t -> 50)
                .pressure("brake-cylinder@4", t -> t > 10 && t < 10.2 ? 55 : 50);
        Finding broken = judge(CYLINDER_BELOW_LIMIT, bad, new Bench());
        assertThat(broken.verdict()).isEqualTo(Verdict.FAIL);
        assertThat(broken.because()).contains("vehicle 4");
    }

    @Test
    void aTransducerThatDiesBeyondALimitIsNoFailureOfTheUnit() {
        HandMade cylinder = new HandMade(20, 1).dead("brake-cylinder@1", t -> 50, 10, 65);
        assertThat(judge(CYLINDER_BELOW_LIMIT, cylinder, new Bench()).verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        HandMade lower = new HandMade(20, 1).dead("brake-cylinder@1", t -> t < 15 ? 50 : 60, 10, 20);
        assertThat(judge(CYLINDER_BELOW_LIMIT, lower, new Bench()).verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        HandMade pipe = new HandMade(20, 1).dead("brake-pipe@1", t -> 0, 12, 25);
        assertThat(judge(NO_CHARGE_OUT_OF_RELEASE, pipe, new Bench()).verdict()).isEqualTo(Verdict.INCONCLUSIVE);
    }

    @Test
    void lostSamplesLeaveItOpenWhetherALimitWasKept() {
        HandMade run = new HandMade(20, 1).pressure("brake-cylinder@1", t -> 50).lost("brake-cylinder@1", 5, 6);
        assertThat(judge(CYLINDER_BELOW_LIMIT, run, new Bench()).verdict()).isEqualTo(Verdict.INCONCLUSIVE);
    }

    private static Bench emergency() {
        return new Bench().drives(0, "master-switch", 1).drives(2, "handle", Bench.EMERGENCY);
    }

    @Test
    void anEmergencyEmptiesThePipeInTimeAndForGood() {
        HandMade good = new HandMade(30, 1).pressure("brake-pipe@4", t -> t < 2 ? 70 : 70 * StrictMath.exp(-(t - 2)));
        Finding kept = judge(DUMP_EMPTIES_THE_PIPE, good, emergency());
        assertThat(kept.verdict()).isEqualTo(Verdict.PASS);
        assertThat(kept.measured().orElseThrow().value()).isCloseTo(StrictMath.log(7), within(0.02));
        HandMade slow =
                new HandMade(60, 1).pressure("brake-pipe@4", t -> t < 2 ? 70 : 70 * StrictMath.exp(-(t - 2) / 6));
        assertThat(judge(DUMP_EMPTIES_THE_PIPE, slow, emergency()).verdict()).isEqualTo(Verdict.FAIL);
        HandMade partly = new HandMade(30, 1).pressure("brake-pipe@4", t -> t < 2 ? 70 : 25);
        Finding stuck = judge(DUMP_EMPTIES_THE_PIPE, partly, emergency());
        assertThat(stuck.verdict()).isEqualTo(Verdict.FAIL);
        assertThat(stuck.because()).contains("still unfinished");
        HandMade again = new HandMade(30, 1)
                .pressure("brake-pipe@4", t -> t < 2 ? 70 : t < 20 ? 70 * StrictMath.exp(-(t - 2)) : 30);
        Finding refilled = judge(DUMP_EMPTIES_THE_PIPE, again, emergency());
        assertThat(refilled.verdict()).isEqualTo(Verdict.FAIL);
        assertThat(refilled.because()).contains("after it had emptied");
    }

    @Test
    void aReleasedDeadmanEmptiesThePipe() {
        Bench course = new Bench()
                .drives(0, "master-switch", 1)
                .drives(0.1, "deadman", 1)
                .drives(0.5, "reverser/forward", 1)
                .drives(2, "deadman", 0);
        HandMade partly = new HandMade(30, 1).pressure("brake-pipe@1", t -> t < 2 ? 70 : 25);
        assertThat(judge(DUMP_EMPTIES_THE_PIPE, partly, course).verdict()).isEqualTo(Verdict.FAIL);
    }

    @Test
    void aDumpThatEndsBeforeItsTimeProvesNothing() {
        HandMade run = new HandMade(30, 1).pressure("brake-pipe@4", t -> t < 2 ? 70 : 60);
        Bench course = emergency().drives(5, "handle", Bench.SERVICE);
        assertThat(judge(DUMP_EMPTIES_THE_PIPE, run, course).verdict()).isEqualTo(Verdict.NONE);
    }

    @Test
    void aReleasedCylinderIsEmpty() {
        Bench course = new Bench()
                .drives(0, "master-switch", 1)
                .drives(5, "handle", 40)
                .drives(10, "handle", 0);
        HandMade good = new HandMade(40, 1)
                .wire("application", 5, 7)
                .wire("holding", 5, 10.05)
                .pressure("brake-pipe@1", t -> 70)
                .pressure("brake-cylinder@1", t -> t < 5 ? 0 : t < 10 ? 50 : 50 * StrictMath.exp(-(t - 10) / 1.5));
        Finding kept = judge(EP_RELEASE_EMPTIES_THE_CYLINDER, good, course);
        assertThat(kept.verdict()).isEqualTo(Verdict.PASS);
        HandMade bad = new HandMade(40, 1)
                .wire("application", 5, 7)
                .wire("holding", 5, 10.05)
                .pressure("brake-pipe@1", t -> 70)
                .pressure("brake-cylinder@1", t -> t < 5 ? 0 : t < 10 ? 50 : 12);
        assertThat(judge(EP_RELEASE_EMPTIES_THE_CYLINDER, bad, course).verdict())
                .isEqualTo(Verdict.FAIL);
        HandMade applied = new HandMade(40, 1)
                .wire("application")
                .wire("holding")
                .pressure("brake-pipe@1", t -> t < 1 ? 70 : 50)
                .pressure("brake-cylinder@1", t -> 50);
        assertThat(judge(EP_RELEASE_EMPTIES_THE_CYLINDER, applied, new Bench()).verdict())
                .isEqualTo(Verdict.NONE);
    }

    @Test
    void vigilanceGoesFromLightToSounderToDump() {
        Bench held = new Bench().drives(0, "deadman", 1);
        HandMade good = new HandMade(30, 1)
                .wire("warning-light", 5, 20)
                .wire("warning-sounder", 7.5, 20)
                .pressure("brake-pipe@1", t -> t < 10 ? 70 : Math.max(0, 70 - 40 * (t - 10)));
        Finding kept = judge(VIGILANCE_STAGES_IN_ORDER, good, held);
        assertThat(kept.verdict()).isEqualTo(Verdict.PASS);
        assertThat(kept.measured().orElseThrow().value()).isCloseTo(2.625, within(0.01));
        HandMade noDump = new HandMade(30, 1)
                .wire("warning-light", 5, 20)
                .wire("warning-sounder", 7.5, 20)
                .pressure("brake-pipe@1", t -> 70);
        assertThat(judge(VIGILANCE_STAGES_IN_ORDER, noDump, held).verdict()).isEqualTo(Verdict.FAIL);
        HandMade noLight = new HandMade(30, 1)
                .wire("warning-light")
                .wire("warning-sounder", 7.5, 8)
                .pressure("brake-pipe@1", t -> 70);
        Finding disordered = judge(VIGILANCE_STAGES_IN_ORDER, noLight, held);
        assertThat(disordered.verdict()).isEqualTo(Verdict.FAIL);
        assertThat(disordered.because()).contains("without the light");
    }

    @Test
    void theLampIsLitOnlyWithASupply() {
        HandMade good = new HandMade(20, 1).wire("ep-supply-lamp", 1, 10.3).supply("supply/ep", t -> t < 10 ? 110 : 0);
        Finding brief = judge(LAMP_ONLY_WITH_SUPPLY, good, new Bench());
        assertThat(brief.verdict()).isEqualTo(Verdict.PASS);
        // The supply is read every 2 ms, and went away at any time between two readings.
        assertThat(brief.measured().orElseThrow().covers(0.3)).isTrue();
        assertThat(brief.measured().orElseThrow().standardUncertainty()).isBetween(0.5e-3, 1.2e-3);
        HandMade bad = new HandMade(20, 1).wire("ep-supply-lamp", 1).supply("supply/ep", t -> t < 10 ? 110 : 0);
        Finding broken = judge(LAMP_ONLY_WITH_SUPPLY, bad, new Bench());
        assertThat(broken.verdict()).isEqualTo(Verdict.FAIL);
        assertThat(broken.measured().orElseThrow().value()).isCloseTo(10, within(0.05));
    }

    @Test
    void whatHappensAfterTheBenchBrokeIsNotHeldAgainstTheUnit() {
        HandMade run = new HandMade(20, 1).pressure("brake-cylinder@1", t -> t < 10 ? 50 : 80);
        Bench course = new Bench().trouble(Kind.BENCH, 9, "The link was lost.");
        Finding finding = judge(CYLINDER_BELOW_LIMIT, run, course);
        assertThat(finding.verdict()).isEqualTo(Verdict.PASS);
    }

    @Test
    void aCaseTooNearToTellIsNotHiddenByOneThatPassesWithLess() {
        Signal exact = Keys.signal("brake-cylinder@4").orElseThrow();
        HandMade near =
                new HandMade(20, 1).pressure("brake-cylinder@1", t -> 52.85).exact(exact, level(52.95));
        assertThat(judge(CYLINDER_BELOW_LIMIT, near, new Bench()).verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        HandMade over =
                new HandMade(20, 1).pressure("brake-cylinder@1", t -> 53.15).exact(exact, level(53.05));
        Finding failing = judge(CYLINDER_BELOW_LIMIT, over, new Bench());
        assertThat(failing.verdict()).isEqualTo(Verdict.FAIL);
        assertThat(failing.because()).contains("vehicle 4");
    }

    /** Scatters by a little, as no true reading stands still. */
    private static GrowingTrace level(double psi) {
        GrowingTrace trace = new GrowingTrace();
        for (int i = 0; i < 20_000; i++) {
            trace.append(i * 1000L, (psi + (i % 2 == 0 ? 1e-6 : -1e-6)) * HandMade.PSI);
        }
        return trace;
    }

    @Test
    void aHoldingWireThatWasNotReportedIsNotTheUnitsFaultAndNoPass() {
        HandMade unseen =
                new HandMade(5, 1).wire("application", 1, 2).wire("holding").lost("wire/holding", 0.9, 2.1);
        assertThat(judge(APPLICATION_ONLY_WITH_HOLDING, unseen, new Bench()).verdict())
                .isEqualTo(Verdict.INCONCLUSIVE);
        HandMade partly = new HandMade(5, 1)
                .wire("application", 1, 2)
                .wire("holding", 0.5, 3)
                .lost("wire/holding", 1.2, 1.5);
        assertThat(judge(APPLICATION_ONLY_WITH_HOLDING, partly, new Bench()).verdict())
                .isEqualTo(Verdict.INCONCLUSIVE);
    }

    @Test
    void aDeadTransducerIsNotTheUnitsFault() {
        HandMade dead = new HandMade(20, 1).pressure("brake-cylinder@1", t -> 55, 0);
        Finding stuck = judge(CYLINDER_BELOW_LIMIT, dead, new Bench());
        assertThat(stuck.verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(stuck.because()).contains("looks dead");
        HandMade broken = new HandMade(20, 1).pressure("brake-cylinder@1", t -> t < 10 ? 50 : 151);
        Finding atEnd = judge(CYLINDER_BELOW_LIMIT, broken, new Bench());
        assertThat(atEnd.verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(atEnd.because()).contains("end of its transducer's range");
    }

    @Test
    void samplesThatAreMissingAndWereNotCalledLostLeaveItOpen() {
        Signal cylinder = Keys.signal("brake-cylinder@1").orElseThrow();
        HandMade hole = new HandMade(20, 1).trace(cylinder, without(5, 6));
        Finding finding = judge(CYLINDER_BELOW_LIMIT, hole, new Bench());
        assertThat(finding.verdict()).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(finding.because()).contains("no samples of brake cylinder at vehicle 1 came for 1.0");
        HandMade ends = new HandMade(20, 1).trace(cylinder, without(14, 20));
        assertThat(judge(CYLINDER_BELOW_LIMIT, ends, new Bench()).verdict()).isEqualTo(Verdict.INCONCLUSIVE);
    }

    private static GrowingTrace without(double from, double to) {
        GrowingTrace trace = new GrowingTrace();
        for (int i = 0; i < 10_000; i++) {
            double t = i * 0.002;
            if (t < from || t > to) {
                trace.append(i * 2000L, (50 + (i % 2 == 0 ? 0.05 : -0.05)) * HandMade.PSI);
            }
        }
        return trace;
    }

    @Test
    void aPipeThatStopsWithinTheDoubtOfEmptyIsInconclusive() {
        HandMade near = new HandMade(30, 1)
                .pressure("brake-pipe@4", t -> t < 2 ? 70 : 10.15 + 59.85 * StrictMath.exp(-(t - 2)));
        Finding finding = judge(DUMP_EMPTIES_THE_PIPE, near, emergency());
        assertThat(finding.verdict()).as(finding.because()).isEqualTo(Verdict.INCONCLUSIVE);
    }

    private static Finding judge(AlwaysProperty property, HandMade run, Bench course) {
        List<Finding> findings =
                new Judge(PressureDisplay.PSI).judge(Bench.plan(List.of(), property), run, course.course());
        assertThat(findings.get(0).id()).isEqualTo("throughout/" + property.text());
        return findings.get(0);
    }
}
