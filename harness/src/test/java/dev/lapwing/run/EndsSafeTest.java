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
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Stream;
import dev.lapwing.evidence.RecordFailure;
import dev.lapwing.measure.Recording;
import dev.lapwing.plan.Course;
import dev.lapwing.plan.Course.Trouble.Kind;
import dev.lapwing.plan.Plan;
import dev.lapwing.simulated.WorkshopTrain;
import java.util.List;
import org.junit.jupiter.api.Test;

/** However and whenever a run ends, the bench ends safe: every moment of one run, by every way of ending it. */
class EndsSafeTest {
    private static final long START = 1_000_000;

    private final BenchFile file = WorkshopTrain.bench(WorkshopTrain.EXACT);

    private ScriptedBench bench() {
        Stream stream = new Stream("quick", List.of(WorkshopTrain.input(file, "brake-pipe@1")), 2000);
        return new ScriptedBench().samples(stream, us -> (int) Math.round((us - START) * 1e-6 / 150 * 65535));
    }

    private Plan plan() {
        return Plans.plan(
                file,
                List.of(drive("supply/ep", 110)),
                List.of(until("brake-pipe@1", 0.5, 30)),
                List.of(
                        drive("handle", 40),
                        expect(rises("rises", "brake-pipe@1", 1, 1)),
                        during(stays("stays", "brake-pipe@1", 100), Plans.ramp(200_000, "handle", 10), seconds(0.3))),
                List.of(drive("handle", 0), seconds(0.2)));
    }

    private static void assertSafe(ScriptedBench bench) {
        assertThat(bench.safes).isPositive();
        assertThat(bench.armed()).isFalse();
        int firstSafe = bench.calls.indexOf("safe");
        assertThat(bench.calls.subList(firstSafe, bench.calls.size())).containsOnly("safe");
    }

    /** Calls something at the n-th time that bench time went on. */
    private static Progress atSlice(int n, Runnable happens) {
        return new Progress() {
            private int slices;

            @Override
            public void passed(long atUs, Recording recording) {
                if (++slices == n) {
                    happens.run();
                }
            }
        };
    }

    private int slices() {
        int[] count = new int[1];
        Progress counting = new Progress() {
            @Override
            public void passed(long atUs, Recording recording) {
                count[0]++;
            }
        };
        new Runner(bench(), counting, new OperatorStop()).run(plan(), new LoggedRun(), Afterwards.SAFE);
        return count[0];
    }

    @Test
    void whenTheOperatorStopsItIsTidiedUpFirst() {
        int slices = slices();
        assertThat(slices).isGreaterThan(50);
        for (int n = 1; n < slices; n++) {
            ScriptedBench bench = bench();
            LoggedRun log = new LoggedRun();
            OperatorStop operator = new OperatorStop();
            Outcome outcome =
                    new Runner(bench, atSlice(n, operator::ask), operator).run(plan(), log, Afterwards.STAY_ARMED);

            if (outcome.armed()) {
                assertThat(n).isGreaterThan(slices - 30);
                continue;
            }
            assertSafe(bench);
            assertThat(outcome.troubles()).extracting(Course.Trouble::kind).containsExactly(Kind.OPERATOR);
            assertThat(log.without("samples"))
                    .containsSubsequence("trouble OPERATOR", "safe host", "end " + outcome.ending());
            if (outcome.ending() == Course.Ending.CUT_SHORT) {
                assertThat(log.lines).containsSubsequence("trouble OPERATOR", "due drive {handle=0}", "safe host");
            }
        }
    }

    @Test
    void whenTheOperatorStopsInEarnestNothingMoreIsDriven() {
        int slices = slices();
        for (int n = 1; n < slices; n++) {
            ScriptedBench bench = bench();
            OperatorStop operator = new OperatorStop();
            Progress progress = atSlice(n, () -> {
                operator.ask();
                operator.ask();
            });
            LoggedRun log = new LoggedRun();
            new Runner(bench, progress, operator).run(plan(), log, Afterwards.SAFE);

            assertSafe(bench);
            assertThat(log.lines.get(log.lines.size() - 1)).startsWith("end ");
            int trouble = log.lines.indexOf("trouble OPERATOR");
            if (trouble >= 0) {
                assertThat(log.lines.subList(trouble, log.lines.size())).noneMatch(line -> line.startsWith("due "));
            }
        }
    }

    @Test
    void whenTheOperatorStoppedBeforehandTheBenchIsNotArmed() {
        ScriptedBench bench = bench();
        OperatorStop operator = new OperatorStop();
        operator.ask();
        Outcome outcome = new Runner(bench, Progress.NONE, operator).run(plan(), new LoggedRun(), Afterwards.SAFE);

        assertThat(bench.calls).containsExactly("safe");
        assertThat(outcome.ending()).isEqualTo(Course.Ending.CUT_SHORT);
        assertThat(outcome.troubles()).extracting(Course.Trouble::kind).containsExactly(Kind.OPERATOR);
    }

    @Test
    void whenTheRecordCannotBeWritten() {
        LoggedRun whole = new LoggedRun();
        new Runner(bench(), Progress.NONE, new OperatorStop()).run(plan(), whole, Afterwards.SAFE);
        for (int call = 1; call <= whole.calls(); call++) {
            ScriptedBench bench = bench();
            Runner runner = new Runner(bench, Progress.NONE, new OperatorStop());
            LoggedRun failing = new LoggedRun(call);

            assertThatThrownBy(() -> runner.run(plan(), failing, Afterwards.SAFE))
                    .isInstanceOf(RecordFailure.class);
            assertSafe(bench);
        }
    }

    @Test
    void whenTheRecordCannotBeEndedForASequenceThatIsToBeContinued() {
        LoggedRun whole = new LoggedRun();
        new Runner(bench(), Progress.NONE, new OperatorStop()).run(plan(), whole, Afterwards.STAY_ARMED);
        ScriptedBench bench = bench();
        Runner runner = new Runner(bench, Progress.NONE, new OperatorStop());

        assertThatThrownBy(() -> runner.run(plan(), new LoggedRun(whole.calls()), Afterwards.STAY_ARMED))
                .isInstanceOf(RecordFailure.class);
        assertSafe(bench);
    }

    @Test
    void whenWhoeverWatchesBreaks() {
        int slices = slices();
        for (int n = 1; n <= slices; n++) {
            ScriptedBench bench = bench();
            LoggedRun log = new LoggedRun();
            Progress breaking = atSlice(n, () -> {
                throw new IllegalStateException("broken screen");
            });

            assertThatThrownBy(() -> new Runner(bench, breaking, new OperatorStop()).run(plan(), log, Afterwards.SAFE))
                    .hasMessage("broken screen");
            assertSafe(bench);
            assertThat(log.lines).contains("trouble BENCH", "end CUT_SHORT");
        }
    }

    @Test
    void whenTheLinkFailsAtAnyMoment() {
        for (long us = START; us < START + 2_500_000; us += 7_000) {
            ScriptedBench bench = bench().at(us, listener -> {
                throw new BenchFailure("the cable is off");
            });
            LoggedRun log = new LoggedRun();
            Outcome outcome = new Runner(bench, Progress.NONE, new OperatorStop()).run(plan(), log, Afterwards.SAFE);

            assertSafe(bench);
            assertThat(log.lines.get(log.lines.size() - 1)).isEqualTo("end " + outcome.ending());
        }
    }

    @Test
    void whenTheBenchTripsAtAnyMomentNothingMoreIsDriven() {
        for (long us = START; us < START + 2_000_000; us += 7_000) {
            ScriptedBench bench = bench();
            bench.at(us, listener -> bench.trip(listener, "stop-button"));
            LoggedRun log = new LoggedRun();
            new Runner(bench, Progress.NONE, new OperatorStop()).run(plan(), log, Afterwards.SAFE);

            assertSafe(bench);
            int tripped = log.lines.indexOf("safe stop-button");
            if (tripped >= 0) {
                assertThat(log.lines.subList(tripped, log.lines.size()))
                        .noneMatch(line -> line.startsWith("due ") || line.startsWith("executed "));
            }
        }
    }

    @Test
    void whenItCannotBeArmed() {
        ScriptedBench refusing = new ScriptedBench();
        Runner runner = new Runner(new RefusingBench(refusing), Progress.NONE, new OperatorStop());
        LoggedRun log = new LoggedRun();
        Outcome outcome = runner.run(plan(), log, Afterwards.SAFE);

        assertThat(refusing.calls).containsExactly("safe");
        assertThat(outcome.troubles()).extracting(Course.Trouble::why).containsExactly("the stop button is in");
        assertThat(log.lines).containsExactly("trouble BENCH", "end CUT_SHORT");
    }
}
