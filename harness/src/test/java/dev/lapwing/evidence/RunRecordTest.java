package dev.lapwing.evidence;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lapwing.finding.Verdict;
import dev.lapwing.plan.Course;
import dev.lapwing.signal.Trace;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class RunRecordTest {
    @TempDir
    Path records;

    @Test
    void aPlanReadsBackAsItWas() {
        assertThat(SampleRun.record(10, 1).plan()).isEqualTo(SamplePlan.plan());
    }

    @Test
    void findingsReadBackAsTheyWere() {
        RunRecord record = SampleRun.record(10, 1);

        assertThat(record.findings()).isEqualTo(SampleRun.findings());
        assertThat(record.verdict()).isEqualTo(Verdict.FAIL);
        assertThat(record.integrity()).isEqualTo(Integrity.WHOLE);
    }

    @Test
    void aRecordOnTheDiskReadsBackAsOneInMemory() throws Exception {
        RunRecord stored = finished("on-disk", 1);
        RunRecord read = RunRecord.open(records.resolve("on-disk"));

        assertThat(read.summary()).isEqualTo(stored.summary());
        assertThat(read.course()).isEqualTo(SampleRun.record(10, 1).course());
        assertThat(read.integrity()).isEqualTo(Integrity.WHOLE);
    }

    @Test
    void whatHappenedReadsBackInFull() {
        Course course = SampleRun.record(10, 1).course();

        assertThat(course.ending()).isEqualTo(Course.Ending.COMPLETE);
        assertThat(course.executed()).singleElement().satisfies(command -> {
            assertThat(command.values()).containsEntry("handle", 40.0).containsEntry("speed", 1.0 / 3);
            assertThat(command.dueUs()).isEqualTo(2_000_000);
            assertThat(command.atUs()).contains(2_000_113L);
        });
        assertThat(course.windows())
                .containsExactly(
                        new Course.ExpectationWindow("cylinder-fills@4", 2_000_113, 2_000_000, 10_000_000, true));
        assertThat(course.lost()).containsOnlyKeys("brake-cylinder@1");
        assertThat(course.troubles()).hasSize(1);
    }

    @Test
    void aRunIsAsLongAsItWasHoweverLongItsBenchHadBeenOn() {
        RunRecord late = SampleRun.afterTenHours();

        assertThat(late.firstUs()).isEqualTo(36_000_000_000L);
        assertThat(late.summary().benchSeconds()).isEqualTo(4);
        assertThat(SampleRun.record(10, 1).summary().benchSeconds()).isEqualTo(10);
    }

    @Test
    void tracesAreCalibratedAndTheFixedDelayIsTakenOff() {
        Trace pipe = SampleRun.record(10, 1).traces().get(SamplePlan.PIPE);

        assertThat(pipe.size()).isEqualTo(5_000);
        assertThat(pipe.timeUs(0)).isEqualTo(-800);
        assertThat(pipe.timeUs(4_999)).isEqualTo(9_998_000 - 800);
        assertThat(pipe.value(17)).isBetween(SamplePlan.psi(69.9), SamplePlan.psi(70.1));
    }

    @Test
    void theSameRunGivesTheSameEvidenceWhoeverRanItWhenAndWhere() {
        OpenRecord elsewhere = OpenRecord.inMemory(SampleRun.identity("another-id"), SamplePlan.plan());
        SampleRun.tell(elsewhere.log(), 10, 1);
        RunSummary other = elsewhere
                .finish(SampleRun.findings(), SampleRun.STARTED.plusSeconds(999))
                .summary();
        RunSummary one = SampleRun.record(10, 1).summary();

        assertThat(other.evidenceSha256()).isEqualTo(one.evidenceSha256()).matches("[0-9a-f]{64}");
        assertThat(other.seal()).isNotEqualTo(one.seal());
    }

    @Test
    void anotherSeedGivesOtherEvidence() {
        assertThat(SampleRun.record(10, 2).summary().evidenceSha256())
                .isNotEqualTo(SampleRun.record(10, 1).summary().evidenceSha256());
    }

    @Test
    void otherFindingsGiveOtherEvidence() throws Exception {
        RunRecord record = SampleRun.record(10, 1);

        assertThat(record.evidenceSha256(record.findings()))
                .isEqualTo(record.summary().evidenceSha256());
        assertThat(record.evidenceSha256(List.of()))
                .isNotEqualTo(record.summary().evidenceSha256());
    }

    @Test
    void theSummaryNamesTheEvidenceChecksum() throws Exception {
        RunRecord record = finished("summary", 1);

        assertThat(records.resolve("summary/run.json"))
                .content()
                .contains("\"evidence-sha256\" : \"" + record.summary().evidenceSha256() + "\"")
                .contains("\"verdict\" : \"fail\"");
    }

    @Test
    void aRecordThatWasNeverFinishedIsAnError() throws Exception {
        try (OpenRecord open = OpenRecord.create(records, SampleRun.identity("unfinished"), SamplePlan.plan())) {
            SampleRun.tell(open.log(), 10, 1);
        }
        RunRecord read = RunRecord.open(records.resolve("unfinished"));

        assertThat(read.integrity()).isEqualTo(Integrity.WHOLE);
        assertThat(read.verdict()).isEqualTo(Verdict.ERROR);
        assertThat(read.findings()).isEmpty();
    }

    @Test
    void aRunIsNeverWrittenOverAnother() {
        finished("twice", 1);

        assertThatThrownBy(() -> OpenRecord.create(records, SampleRun.identity("twice"), SamplePlan.plan()))
                .isInstanceOf(RecordFailure.class)
                .hasMessageContaining("twice")
                .hasMessageContaining("--records DIR");
    }

    @Test
    void anyChangeOfAnyFileIsFound() throws Exception {
        finished("changed", 1);
        Path record = records.resolve("changed");
        for (String file : List.of("plan.json", "findings.json", "run.json", "log.bin")) {
            byte[] whole = Files.readAllBytes(record.resolve(file));
            for (int at = 0; at < whole.length; at += 1 + whole.length / 97) {
                byte[] changed = whole.clone();
                changed[at] ^= 1;
                Files.write(record.resolve(file), changed);
                assertThat(isWhole(record)).as(file + " changed at byte " + at).isFalse();
            }
            Files.write(record.resolve(file), whole);
        }
        assertThat(isWhole(record)).isTrue();
    }

    @Test
    void whatIsNoRecordSaysSo() throws IOException {
        assertThatThrownBy(() -> RunRecord.open(records.resolve("nowhere")))
                .isInstanceOf(UnreadableRecord.class)
                .hasMessageContaining("no such folder");
        assertThatThrownBy(() -> RunRecord.open(records))
                .isInstanceOf(UnreadableRecord.class)
                .hasMessageContaining("has no run.json");
        Files.writeString(records.resolve("run.json"), "{\"schema\": 99}");
        Files.writeString(records.resolve("plan.json"), "{}");
        assertThatThrownBy(() -> RunRecord.open(records))
                .isInstanceOf(UnreadableRecord.class)
                .hasMessageContaining("format 99");
    }

    @Test
    void aFigureThatIsNoNumberIsRefused() {
        assertThatThrownBy(() -> RecordJson.tree(List.of(1.0, Double.NaN)))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("/1");
    }

    private RunRecord finished(String id, long seed) {
        try (OpenRecord open = OpenRecord.create(records, SampleRun.identity(id), SamplePlan.plan())) {
            SampleRun.tell(open.log(), 10, seed);
            return open.finish(SampleRun.findings(), SampleRun.STARTED.plusSeconds(3));
        }
    }

    private static boolean isWhole(Path record) {
        try {
            return RunRecord.open(record).integrity().state() == Integrity.State.WHOLE;
        } catch (UnreadableRecord e) {
            return false;
        }
    }
}
