package dev.lapwing.run;

import static dev.lapwing.run.Plans.drive;
import static dev.lapwing.run.Plans.expect;
import static dev.lapwing.run.Plans.rises;
import static dev.lapwing.run.Plans.seconds;
import static dev.lapwing.run.Plans.switches;
import static dev.lapwing.run.Plans.until;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.evidence.OpenRecord;
import dev.lapwing.evidence.RunClass;
import dev.lapwing.evidence.RunIdentity;
import dev.lapwing.evidence.RunRecord;
import dev.lapwing.evidence.UnreadableRecord;
import dev.lapwing.measure.Recording;
import dev.lapwing.plan.Course;
import dev.lapwing.plan.Plan;
import dev.lapwing.simulated.SimulatedBench;
import dev.lapwing.simulated.WorkshopTrain;
import java.time.Instant;
import java.util.List;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;

/** Runner, simulated bench and record together: a short EP application and release. */
class SimulatedRunTest {
    private final BenchFile file = WorkshopTrain.bench(WorkshopTrain.USUAL);

    private Plan plan() {
        return Plans.plan(
                file,
                List.of(drive("supply/ep", 110, "supply/control", 110), drive("deadman", 1), drive("master-switch", 1)),
                List.of(until("brake-pipe@4", 60, 60)),
                List.of(
                        drive("handle", 40),
                        expect(
                                switches("application", "application", true, 1),
                                rises("lead-fills", "brake-cylinder@1", 40, 4),
                                rises("rear-fills", "brake-cylinder@4", 40, 4)),
                        drive("handle", 0),
                        expect(switches("released", "holding", false, 1)),
                        seconds(1)),
                List.of(drive("handle", 0)));
    }

    private RunRecord record(long seed, Progress progress, OperatorStop operator) throws BenchFailure {
        try (SimulatedBench bench =
                SimulatedBench.open(file, WorkshopTrain.wiring(), WorkshopTrain.simulation(), seed)) {
            RunIdentity identity = new RunIdentity(
                    "run",
                    "",
                    RunClass.values()[0],
                    Instant.EPOCH,
                    "",
                    "",
                    bench.identity().boot(),
                    true,
                    OptionalLong.of(seed),
                    "0",
                    "",
                    List.of());
            OpenRecord record = OpenRecord.inMemory(identity, plan());
            new Runner(bench, progress, operator).run(plan(), record.log(), Afterwards.SAFE);
            assertThat(bench.outputsSafe()).isTrue();
            assertThat(bench.armed()).isFalse();
            return record.read();
        }
    }

    private RunRecord record(long seed) throws BenchFailure {
        return record(seed, Progress.NONE, new OperatorStop());
    }

    @Test
    void everyWindowIsClosedSoonAfterWhatItWaitsForHappened() throws BenchFailure {
        RunRecord record = record(1);
        Course course = record.course();

        assertThat(course.ending()).isEqualTo(Course.Ending.COMPLETE);
        assertThat(course.troubles()).isEmpty();
        assertThat(course.windows()).hasSize(4).allMatch(Course.ExpectationWindow::complete);
        Course.ExpectationWindow application = course.windows().get(0);
        Course.ExpectationWindow rear = course.windows().get(2);
        assertThat(application.closedUs() - application.originUs()).isLessThan(1_000_000);
        assertThat(rear.closedUs() - rear.originUs()).isBetween(1_500_000L, 4_000_000L);
    }

    @Test
    void equalSeedsGiveEqualEvidenceAndOthersDoNot() throws BenchFailure, UnreadableRecord {
        String first = record(1).evidenceSha256(List.of());

        assertThat(record(1).evidenceSha256(List.of())).isEqualTo(first);
        assertThat(record(2).evidenceSha256(List.of())).isNotEqualTo(first);
    }

    @Test
    void aRunThatTheOperatorStoppedIsRecordedUpToThere() throws BenchFailure {
        OperatorStop operator = new OperatorStop();
        Progress stopping = new Progress() {
            @Override
            public void passed(long atUs, Recording recording) {
                if (atUs > 5_000_000 && !operator.asked()) {
                    operator.ask();
                }
            }
        };
        RunRecord record = record(1, stopping, operator);

        assertThat(record.course().ending()).isEqualTo(Course.Ending.CUT_SHORT);
        assertThat(record.course().troubles())
                .extracting(Course.Trouble::kind)
                .containsExactly(Course.Trouble.Kind.OPERATOR);
        assertThat(record.lastUs()).isBetween(5_000_000L, 6_000_000L);
    }
}
