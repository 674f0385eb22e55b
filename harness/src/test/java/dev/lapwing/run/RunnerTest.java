package dev.lapwing.run;

import static dev.lapwing.run.Plans.drive;
import static dev.lapwing.run.Plans.during;
import static dev.lapwing.run.Plans.expect;
import static dev.lapwing.run.Plans.plan;
import static dev.lapwing.run.Plans.rises;
import static dev.lapwing.run.Plans.seconds;
import static dev.lapwing.run.Plans.stays;
import static dev.lapwing.run.Plans.until;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Stream;
import dev.lapwing.plan.Course;
import dev.lapwing.plan.Course.Trouble.Kind;
import dev.lapwing.plan.Plan;
import dev.lapwing.plan.PlanStep;
import dev.lapwing.simulated.WorkshopTrain;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

class RunnerTest {
    private static final long START = 1_000_000;

    private final BenchFile file = WorkshopTrain.bench(WorkshopTrain.EXACT);
    private final ScriptedBench bench = new ScriptedBench();
    private final OperatorStop operator = new OperatorStop();
    private final LoggedRun log = new LoggedRun();

    private Outcome run(Plan plan) {
        return new Runner(bench, Progress.NONE, operator).run(plan, log, Afterwards.SAFE);
    }

    private String point(String actuator) {
        return WorkshopTrain.output(file, actuator);
    }

    /** The brake pipe of vehicle 1 rises evenly by 1 psi in a second. */
    private void pipeRises() {
        Stream stream = new Stream("quick", List.of(WorkshopTrain.input(file, "brake-pipe@1")), 2000);
        bench.samples(stream, us -> (int) Math.round((us - START) * 1e-6 / 150 * 65535));
    }

    private void assertSafe(Outcome outcome, Kind... kinds) {
        assertThat(bench.safes).isPositive();
        assertThat(bench.armed()).isFalse();
        assertThat(bench.driven).isEmpty();
        assertThat(outcome.armed()).isFalse();
        assertThat(outcome.troubles()).extracting(Course.Trouble::kind).containsExactly(kinds);
        assertThat(log.troubles).isEqualTo(outcome.troubles());
        assertThat(log.lines.get(log.lines.size() - 1)).isEqualTo("end " + outcome.ending());
    }

    @Test
    void aWholeRunDoesItsPartsInOrderAndEndsSafe() {
        Outcome outcome = run(plan(
                file,
                List.of(drive("supply/ep", 110)),
                List.of(),
                List.of(drive("handle", 40), seconds(1)),
                List.of(drive("handle", 0))));

        assertThat(outcome.ending()).isEqualTo(Course.Ending.COMPLETE);
        assertSafe(outcome);
        assertThat(bench.calls)
                .containsExactly(
                        "arm",
                        "set {" + point("supply/ep") + "=33000}",
                        "set {" + point("handle") + "=20000}",
                        "set {" + point("handle") + "=0}",
                        "safe");
        assertThat(log.lines)
                .containsExactly(
                        "due drive {supply/ep=110}",
                        "executed 1",
                        "due drive {handle=40}",
                        "executed 2",
                        "due drive {handle=0}",
                        "executed 3",
                        "safe host",
                        "end COMPLETE");
    }

    @Test
    void timesCountFromTheStampOfTheLastStimulusAndFromTheOpeningWithoutOne() {
        pipeRises();
        run(plan(
                file,
                expect(stays("before", "brake-pipe@1", 100, OptionalDouble.of(0.1))),
                drive("handle", 40),
                expect(stays("after", "brake-pipe@1", 100, OptionalDouble.of(0.1)))));

        Course.ExpectationWindow before = log.windows.get(0);
        Course.ExpectationWindow after = log.windows.get(1);
        assertThat(before.originUs()).isEqualTo(START).isEqualTo(before.openedUs());
        assertThat(after.originUs()).isEqualTo(before.closedUs() + bench.lagUs() + 3);
        assertThat(after.openedUs()).isBetween(after.originUs(), after.originUs() + BenchTime.SLICE_US);
        assertThat(after.closedUs()).isGreaterThanOrEqualTo(after.originUs() + 100_000);
        assertThat(log.windows).allMatch(Course.ExpectationWindow::complete);
    }

    @Test
    void timesCountFromWhatWasWaitedForSinceTheLastStimulus() {
        pipeRises();
        run(plan(
                file,
                drive("handle", 40),
                until("brake-pipe@1", 5, 30),
                seconds(1),
                expect(stays("charged", "brake-pipe@1", 100, OptionalDouble.of(0.1)))));

        assertThat(log.windows.get(0).originUs()).isBetween(START + 4_950_000, START + 5_050_000);
        assertThat(log.windows.get(0).openedUs()).isGreaterThan(START + 6_000_000);
    }

    @Test
    void aStepWithARampEndsWithTheRamp() {
        List<String> steps = new ArrayList<>();
        Progress progress = new Progress() {
            @Override
            public void step(Part part, PlanStep step, long atUs) {
                steps.add(atUs - START + " " + step.text());
            }
        };
        new Runner(bench, progress, operator)
                .run(plan(file, Plans.ramp(2_000_000, "handle", 40), seconds(1)), log, Afterwards.SAFE);

        assertThat(steps).containsExactly("0 drive {handle=40}", "2050003 wait 1.0 s");
    }

    @Test
    void aWaitEndsSoonAfterItsConditionHeld() {
        pipeRises();
        List<Long> at = new ArrayList<>();
        Progress progress = new Progress() {
            @Override
            public void step(Part part, PlanStep step, long atUs) {
                at.add(atUs);
            }
        };
        new Runner(bench, progress, operator)
                .run(plan(file, until("brake-pipe@1", 5, 30), seconds(0.1)), log, Afterwards.SAFE);

        assertThat(at.get(1) - START).isBetween(5_000_000L, 5_100_000L);
    }

    @Test
    void aStartConditionThatIsNotMetEndsTheRunBeforeItsFirstStep() {
        pipeRises();
        Outcome outcome = run(plan(
                file,
                List.of(),
                List.of(until("brake-pipe@1", 50, 3)),
                List.of(drive("handle", 40)),
                List.of(drive("handle", 0))));

        assertThat(outcome.ending()).isEqualTo(Course.Ending.CUT_SHORT);
        assertSafe(outcome, Kind.NOT_REACHED);
        assertThat(outcome.troubles().get(0).why())
                .contains("brake-pipe@1 above 50.0 psi")
                .contains("brake pipe at vehicle 1 stood at 3.")
                .contains("psi (");
        assertThat(log.lines).contains("due drive {handle=0}").doesNotContain("due drive {handle=40}");
    }

    @Test
    void whatWasNeverReadIsSaidSo() {
        Outcome outcome = run(plan(file, until("brake-pipe@1", 50, 3)));

        assertThat(outcome.troubles().get(0).why()).contains("brake pipe at vehicle 1 was never read");
    }

    @Test
    void expectationsWithoutATimeOfTheirOwnLastAsLongAsTheStepsAroundThem() {
        pipeRises();
        run(plan(file, during(stays("quiet", "brake-pipe@1", 100), drive("handle", 40), seconds(3))));

        Course.ExpectationWindow window = log.windows.get(0);
        assertThat(window.openedUs()).isEqualTo(START);
        assertThat(window.closedUs()).isBetween(START + 3_050_000, START + 3_100_000);
        assertThat(window.complete()).isTrue();
    }

    @Test
    void expectationsWithATimeOfTheirOwnOutlastTheStepsAroundThem() {
        pipeRises();
        PlanStep.While during = new PlanStep.While(
                List.of(stays("short", "brake-pipe@1", 100), rises("long", "brake-pipe@1", 4, 5)),
                List.of(seconds(1)),
                "meanwhile",
                "t:1:1");
        run(plan(file, during));

        assertThat(log.without("samples"))
                .containsSubsequence("opened short", "opened long", "closed short", "closed long");
        assertThat(log.windows.get(1).closedUs()).isGreaterThanOrEqualTo(START + 4_000_000);
    }

    @Test
    void anExpectationOfSomethingThatNeverComesEndsWithItsTime() {
        pipeRises();
        Outcome outcome = run(plan(file, expect(rises("hopeless", "brake-pipe@1", 140, 2))));

        assertThat(outcome.ending()).isEqualTo(Course.Ending.COMPLETE);
        assertThat(log.windows.get(0).complete()).isTrue();
        assertThat(log.windows.get(0).closedUs()).isBetween(START + 4_000_000, START + 15_000_000);
    }

    @Test
    void aValueBeyondAnOutputsRangeIsRefusedBeforeAnythingIsDriven() {
        Outcome outcome = run(plan(file, drive("handle", 121)));

        assertSafe(outcome, Kind.BENCH);
        assertThat(outcome.troubles().get(0).why())
                .contains("'handle' cannot be driven to 121 degrees")
                .contains("'" + point("handle") + "'");
        assertThat(bench.calls).containsExactly("arm", "safe");
    }

    @Test
    void anActuatorWithoutAnOutputIsSaidByName() {
        Outcome outcome = run(plan(file, drive("parting/behind-1", 1)));

        assertThat(outcome.troubles().get(0).why()).contains("drives no 'parting/behind-1'");
    }

    @Test
    void aCommandWhoseExecutionIsNotToldEndsTheRun() {
        bench.silentAboutSets = true;
        Outcome outcome = run(plan(file, drive("handle", 40)));

        assertSafe(outcome, Kind.BENCH);
        assertThat(outcome.troubles().get(0).why()).contains("did not say").contains("drive {handle=40}");
    }

    @Test
    void aClockThatStandsStillEndsTheRun() {
        bench.at(START + 500_000, listener -> bench.standsStill = true);
        Outcome outcome = run(plan(file, seconds(10)));

        assertThat(outcome.troubles().get(0).why()).contains("stands still");
        assertThat(outcome.ending()).isEqualTo(Course.Ending.CUT_SHORT);
    }

    @Test
    void aTripEndsTheRunWithoutTidyingUp() {
        bench.at(START + 500_000, listener -> bench.trip(listener, "limit"));
        Outcome outcome = run(plan(
                file,
                List.of(),
                List.of(),
                List.of(during(stays("watched", "brake-pipe@1", 100), seconds(10))),
                List.of(drive("handle", 0))));

        assertSafe(outcome, Kind.BENCH);
        assertThat(outcome.troubles().get(0).why()).contains("left its safety limits");
        assertThat(log.lines).contains("closed watched incomplete").doesNotContain("due drive {handle=0}");
        assertThat(bench.calls).containsExactly("arm", "safe");
    }

    @ParameterizedTest
    @ValueSource(strings = {"over-range", "overrun", "not-readable"})
    void aFaultOfTheBenchEndsTheRunAndAFaultOfReadingsDoesNot(String ofReadings) {
        bench.at(START + 500_000, listener -> listener.fault(START + 500_000, "A1", ofReadings));
        assertThat(run(plan(file, seconds(1))).ending()).isEqualTo(Course.Ending.COMPLETE);
        assertThat(log.lines).as("what reads it is not judged").contains("lost A1");

        bench.at(bench.nowUs() + 500_000, listener -> listener.fault(bench.nowUs(), "", "supply"));
        Outcome outcome = run(plan(file, seconds(1)));
        assertSafe(outcome, Kind.BENCH);
        assertThat(outcome.troubles().get(0).why()).contains("supply");
    }

    @Test
    void aLostLinkEndsTheRunWithoutTidyingUp() {
        bench.at(START + 500_000, listener -> {
            throw new BenchFailure("the cable is off");
        });
        Outcome outcome = run(plan(file, List.of(), List.of(), List.of(seconds(10)), List.of(drive("handle", 0))));

        assertThat(outcome.troubles()).extracting(Course.Trouble::why).containsExactly("the cable is off");
        assertThat(bench.calls).containsExactly("arm", "safe");
    }

    @Test
    void aBenchThatDoesNotSayThatItIsSafeIsInTrouble() {
        bench.silentAboutSafe = true;
        bench.at(START + 1_500_000, listener -> listener.fault(START + 1_500_000, "", "W1 sticks"));
        Outcome outcome = run(plan(file, seconds(1)));

        assertThat(outcome.troubles().get(0).why()).contains("did not say that it is safe", "It told: W1 sticks");
        assertThat(bench.safes).isEqualTo(1);
    }

    @Test
    void aTidyUpStepThatDoesNotEndIsLeftUndoneAndTheNextIsDone() {
        pipeRises();
        Outcome outcome = run(plan(
                file,
                List.of(),
                List.of(),
                List.of(seconds(1)),
                List.of(until("brake-pipe@1", 140, 1000), seconds(200), drive("handle", 0))));

        assertSafe(outcome);
        assertThat(log.lines)
                .filteredOn(line -> line.startsWith("mark tidying up"))
                .hasSize(2);
        assertThat(log.lines).contains("due drive {handle=0}");
    }

    @ParameterizedTest
    @EnumSource(Afterwards.class)
    void whatWasLostJustBeforeTheEndIsWaitedForAndInTheRecord(Afterwards afterwards) {
        bench.awaitsUntilUs = START + 2_500_000;
        bench.at(START + 2_400_000, listener -> listener.lost("D1", START + 900_000, START + 950_000));
        new Runner(bench, Progress.NONE, operator).run(plan(file, seconds(1)), log, afterwards);

        assertThat(log.lines).contains("lost D1").last().isEqualTo("end COMPLETE");
        assertThat(log.troubles).isEmpty();
    }

    @Test
    void aTripThatIsToldJustAfterTheLastStepIsATripOfTheRun() {
        bench.at(START + 1_060_000, listener -> listener.safe(START + 990_000, "limit"));
        Outcome outcome = run(plan(file, seconds(1)));

        assertSafe(outcome, Kind.BENCH);
        assertThat(log.lines).last().isEqualTo("end COMPLETE");
        assertThat(outcome.troubles().get(0).why()).contains("a reading left its safety limits");
    }

    @Test
    void aFaultThatIsToldJustAfterTheLastStepIsAFaultOfTheRun() {
        bench.at(START + 1_060_000, listener -> listener.fault(START + 990_000, "", "supply"));

        assertSafe(run(plan(file, seconds(1))), Kind.BENCH);
    }

    @Test
    void aBenchThatNeverTellsWhatHappenedUntilTheEndIsInTrouble() {
        bench.awaitsUntilUs = Long.MAX_VALUE;
        Outcome outcome = run(plan(file, seconds(1)));

        assertSafe(outcome, Kind.BENCH);
        assertThat(outcome.troubles().get(0).why()).contains("did not report all that happened");
    }

    @Test
    void aSequenceThatContinuesFindsTheBenchArmedAndTheLevelsOfTheWires() {
        Runner runner = new Runner(bench, Progress.NONE, operator);
        bench.at(START + 100_000, listener -> listener.edge("D1", START + 100_000, true));
        Outcome first = runner.run(plan(file, drive("handle", 40)), log, Afterwards.STAY_ARMED);
        assertThat(first.armed()).isTrue();
        assertThat(bench.driven).containsEntry(point("handle"), 20_000);

        LoggedRun second = new LoggedRun();
        Outcome outcome = runner.run(plan(file, seconds(1)), second, Afterwards.SAFE);
        assertThat(outcome.ending()).isEqualTo(Course.Ending.COMPLETE);
        assertThat(second.lines).containsExactly("edge D1 true", "safe host", "end COMPLETE");
        assertThat(bench.calls).filteredOn("arm"::equals).hasSize(1);
        assertThat(bench.driven).isEmpty();
    }

    @Test
    void aWireOfWhichReportsWereLostIsNotKnownToTheSequenceThatContinuesEither() {
        Runner runner = new Runner(bench, Progress.NONE, operator);
        bench.at(START + 100_000, listener -> {
            listener.edge("D1", START + 100_000, true);
            listener.edge("D2", START + 100_000, true);
        });
        bench.at(START + 200_000, listener -> {
            listener.lost("D1", START + 150_000, START + 190_000);
            listener.lost("D2", START + 150_000, START + 190_000);
            listener.edge("D2", START + 195_000, true);
        });
        runner.run(plan(file, seconds(0.3)), log, Afterwards.STAY_ARMED);

        LoggedRun second = new LoggedRun();
        runner.run(plan(file, seconds(0.3)), second, Afterwards.SAFE);

        assertThat(second.lines)
                .containsExactly("edge D1 true", "lost D1", "edge D2 true", "safe host", "end COMPLETE");
    }

    @Test
    void aRunInTroubleDoesNotLeaveTheBenchArmed() {
        Outcome outcome = new Runner(bench, Progress.NONE, operator)
                .run(plan(file, until("brake-pipe@1", 140, 1)), log, Afterwards.STAY_ARMED);

        assertSafe(outcome, Kind.NOT_REACHED);
    }
}
