package dev.lapwing.evidence;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.tuple;

import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Verdict;
import dev.lapwing.plan.Course;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Nothing that a run was to hold is lost without being missed. */
class WholeRunTest {
    private static final RunRecord ONE = passed("one");
    private static final RunRecord TWO = passed("two");
    private static final RunRecord THREE = passed("three");
    private static final RunSession BEGUN = begun("one", "two", "three");

    @TempDir
    Path folder;

    private static RunRecord passed(String id) {
        OpenRecord open = OpenRecord.inMemory(SampleRun.identity(id), SamplePlan.plan());
        open.log().end(0, Course.Ending.COMPLETE);
        List<Finding> pass = SampleRun.findings().stream()
                .filter(finding -> finding.verdict() == Verdict.PASS)
                .toList();
        return open.finish(pass, SampleRun.STARTED.plusSeconds(3));
    }

    private static RunSession begun(String... records) {
        return RunSession.begun(
                SampleRun.identity("any").session(),
                RunClass.DRY,
                SampleRun.STARTED,
                "a unit",
                "a bench",
                OptionalLong.of(7),
                Stream.of(records)
                        .map(id -> new RunSession.Due(id, "Sequence " + id, id + ".yaml", id, Optional.empty()))
                        .toList());
    }

    private static RunSession ended(RunRecord... records) {
        return BEGUN.ended(SampleRun.STARTED.plusSeconds(9), List.of(records));
    }

    @Test
    void aRunThatHoldsAllItWasToHoldIsWhatItsRecordsSay() {
        WholeRun run = WholeRun.of(ended(ONE, TWO, THREE), List.of(ONE, TWO, THREE));

        assertThat(run.gaps()).isEmpty();
        assertThat(run.verdict()).isEqualTo(Verdict.PASS);
    }

    @Test
    void aRecordThatIsMissingIsAnError() {
        WholeRun run = WholeRun.of(ended(ONE, TWO, THREE), List.of(ONE, THREE));

        assertThat(run.gaps())
                .extracting(Gap::sequence, Gap::state, Gap::verdict)
                .containsExactly(tuple("two", "no record", Verdict.ERROR));
        assertThat(run.gaps().get(0).why()).contains("Put the folder 'two' back");
        assertThat(run.verdict()).isEqualTo(Verdict.ERROR);
    }

    @Test
    void theLastRecordIsMissedToo() {
        assertThat(WholeRun.of(ended(ONE, TWO, THREE), List.of(ONE, TWO)).verdict())
                .isEqualTo(Verdict.ERROR);
    }

    @Test
    void whatWasNotRunIsNoneAndSaysWhichErrorEndedTheRun() {
        WholeRun run = WholeRun.of(ended(ONE, TWO), List.of(ONE, TWO));

        assertThat(run.gaps())
                .extracting(Gap::sequence, Gap::state, Gap::verdict, Gap::why)
                .containsExactly(
                        tuple("three", "not run", Verdict.NONE, "Not run: the error of two ended the run before it."));
        assertThat(run.due()).isEqualTo(3);
    }

    @Test
    void ofARunThatBrokeOffNothingWithoutARecordIsTakenForNotRun() {
        assertThat(WholeRun.of(BEGUN, List.of(ONE, THREE)).gaps())
                .extracting(Gap::sequence, Gap::verdict)
                .containsExactly(tuple("two", Verdict.ERROR));
        assertThat(WholeRun.of(BEGUN, List.of(ONE)).gaps())
                .extracting(Gap::sequence, Gap::verdict)
                .containsExactly(tuple("two", Verdict.ERROR), tuple("three", Verdict.ERROR));
        assertThat(WholeRun.of(BEGUN, List.of(ONE)).gaps().get(0).why()).contains("broke off");
    }

    @Test
    void anotherRecordInThePlaceOfTheOneThatTheRunMadeIsAnError() {
        RunRecord other = SampleRun.record(4, 2);
        RunSession session = begun("r-2").ended(SampleRun.STARTED, List.of(SampleRun.record(4, 2)));
        RunRecord exchanged = OpenRecord.inMemory(SampleRun.identity("r-2"), SamplePlan.plan())
                .finish(SampleRun.findings(), SampleRun.STARTED.plusSeconds(4));

        assertThat(WholeRun.of(session, List.of(other)).gaps()).isEmpty();
        assertThat(WholeRun.of(session, List.of(exchanged)).gaps())
                .extracting(Gap::state, Gap::verdict)
                .containsExactly(tuple("another record", Verdict.ERROR));
    }

    @Test
    void aRecordOfAnythingElseIsAnErrorAndIsNamed() {
        WholeRun run = WholeRun.of(ended(ONE, TWO, THREE), List.of(passed("four"), ONE, TWO, THREE));

        assertThat(run.gaps())
                .extracting(Gap::state, Gap::verdict)
                .containsExactly(tuple("not of this run", Verdict.ERROR));
    }

    @Test
    void recordsStandInTheOrderOfTheRun() {
        assertThat(WholeRun.of(ended(ONE, TWO, THREE), List.of(THREE, TWO, ONE)).records())
                .containsExactly(ONE, TWO, THREE);
    }

    @Test
    void theListReadsBackAsItWasWritten() throws Exception {
        RunSession session = ended(ONE, TWO);
        BEGUN.write(folder);
        assertThat(RunSession.read(folder)).isEqualTo(BEGUN);
        session.write(folder);

        assertThat(RunSession.read(folder)).isEqualTo(session);
        assertThat(session.unchanged()).isTrue();
        try (Stream<Path> files = Files.list(folder)) {
            assertThat(files).containsExactly(folder.resolve("session.json"));
        }
    }

    @Test
    void anyChangeOfTheListIsAnErrorAndTheRecordsAreStillTold() throws Exception {
        List<RunRecord> records = List.of(ONE, TWO, THREE);
        ended(ONE, TWO, THREE).write(folder);
        Path list = folder.resolve("session.json");
        byte[] whole = Files.readAllBytes(list);
        assertThat(WholeRun.in(folder, records).verdict()).isEqualTo(Verdict.PASS);
        for (int at = 0; at < whole.length; at++) {
            byte[] changed = whole.clone();
            changed[at] ^= 1;
            Files.write(list, changed);
            WholeRun run = WholeRun.in(folder, records);
            assertThat(run.verdict()).as("changed at byte " + at).isEqualTo(Verdict.ERROR);
            assertThat(run.records()).hasSameElementsAs(records);
        }
    }

    @Test
    void aListThatWasCutAnywhereIsAnErrorThatSaysSo() throws Exception {
        ended(ONE, TWO, THREE).write(folder);
        Path list = folder.resolve("session.json");
        String whole = Files.readString(list);
        for (int length = 0; length < whole.length() - 1; length += 7) {
            Files.writeString(list, whole.substring(0, length));
            assertThat(WholeRun.in(folder, List.of(ONE, TWO, THREE)).gaps())
                    .as("cut after " + length + " bytes")
                    .singleElement()
                    .satisfies(gap -> assertThat(gap.why()).contains("session.json", "is not known"));
        }
    }

    @Test
    void aListThatIsGoneIsMissed() {
        WholeRun run = WholeRun.in(folder, List.of(ONE));

        assertThat(run.verdict()).isEqualTo(Verdict.ERROR);
        assertThat(run.gaps())
                .singleElement()
                .satisfies(gap -> assertThat(gap.why()).contains("session.json is missing", "is not known"));
    }

    @Test
    void aListThatCannotBeWrittenSaysWhereToInstead() throws Exception {
        Path file = Files.writeString(folder.resolve("file"), "");

        assertThatThrownBy(() -> BEGUN.write(file.resolve("run")))
                .isInstanceOf(RecordFailure.class)
                .hasMessageContaining("--records DIR");
    }
}
