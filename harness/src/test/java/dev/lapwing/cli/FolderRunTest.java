package dev.lapwing.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.lapwing.evidence.RecordFailure;
import dev.lapwing.evidence.RunClass;
import dev.lapwing.evidence.RunRecord;
import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Verdict;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.run.OperatorStop;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

/** Sequences one after the other, and what becomes of the rest where one does not end as it should. */
class FolderRunTest {
    @TempDir
    Path folder;

    private final OperatorStop stop = new OperatorStop();
    private final StringWriter said = new StringWriter();
    private String listAfterFirst = "";

    @Test
    void aStopBetweenTwoSequencesIsNoPass() throws Exception {
        sequence("1", SmallSequence.TEXT);
        sequence("2", SmallSequence.TEXT);
        sequence("3", SmallSequence.TEXT);

        Verdict verdict = run(stop::ask);

        assertThat(verdict).isEqualTo(Verdict.ERROR);
        assertThat(records()).extracting(RunRecord::verdict).containsExactly(Verdict.PASS, Verdict.ERROR);
        assertThat(because(records().get(1)))
                .contains("The operator stopped before this sequence was begun.")
                .anyMatch(why -> why.startsWith("Not run: the operator stopped"));
        assertThat(said.toString()).contains("Not run: 3");
        assertThat(Files.readString(runFolder().resolve("junit.xml")))
                .contains("type=\"bench\"", "classname=\"3\"", "<skipped message=\"Not run: the error of 2");
        assertThat(Files.readString(runFolder().resolve("report.html"))).contains("Not run: the error of 2");
    }

    @Test
    void whichSequencesARunIsToHoldIsWrittenBeforeTheFirstIsOver() throws Exception {
        sequence("1", SmallSequence.TEXT);
        sequence("2", SmallSequence.TEXT);

        run(stop::ask);

        assertThat(listAfterFirst).contains("\"record\" : \"1\"", "\"record\" : \"2\"", "\"ended\" : null");
        assertThat(Files.readString(runFolder().resolve("session.json"))).contains("\"ended\" : \"20");
    }

    @Test
    void aRunThatBrokeOffIsNoPassInItsReportsNorJudgedAgain() throws Exception {
        sequence("1", SmallSequence.TEXT);
        sequence("2", SmallSequence.TEXT);

        assertThatThrownBy(() -> run(() -> occupy("2"))).isInstanceOf(RecordFailure.class);

        assertThat(said.toString()).contains("ERROR  2: no record");
        assertThat(Files.readString(runFolder().resolve("junit.xml"))).contains("errors=\"1\"", "The run broke off");
        assertThat(Records.in(runFolder()).verdict()).isEqualTo(Verdict.ERROR);
    }

    @Test
    void whoArmedTheBenchStandsInEveryRecord() throws Exception {
        sequence("1", SmallSequence.TEXT);
        sequence("2", SmallSequence.TEXT);

        run(() -> {});

        assertThat(records())
                .hasSize(2)
                .allSatisfy(record -> assertThat(record.remarks())
                        .extracting(RunRecord.Remark::text)
                        .contains("armed by T. Night"));
    }

    @Test
    void aSequenceThatContinuesNothingIsNotRun() throws Exception {
        sequence("1", SmallSequence.TEXT.replace("needs:", "continues: yes\nneeds:"));

        assertThat(run(() -> {})).isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(because(records().get(0))).anyMatch(why -> why.startsWith("There is nothing that it continues"));
        assertThat(records().get(0).samples()).isZero();
    }

    @Test
    void aSequenceContinuesTheArmedBenchOfTheOneBefore() throws Exception {
        sequence("1", SmallSequence.TEXT);
        sequence("2", SmallSequence.TEXT.replace("needs:", "continues: yes\nneeds:"));

        assertThat(run(() -> {})).as(said.toString()).isEqualTo(Verdict.PASS);
    }

    private void sequence(String name, String text) throws IOException {
        SmallSequence.write(folder.resolve("sequences"), name, text);
    }

    private Verdict run(Runnable afterFirst) {
        RunFiles.Outcome files = RunFiles.load(
                List.of(folder.resolve("sequences")),
                Path.of("fixtures/classic.yaml"),
                Path.of("bench-config/simulated.yaml"),
                PressureDisplay.PSI);
        assertThat(files.mistakes()).isEmpty();
        RunChoices choices = new RunChoices(
                1, folder.resolve("records"), RunClass.DRY, "", "", "test", List.of("armed by T. Night"));
        // The result of a sequence is written when it is over: that is when something happens here.
        PrintWriter out = new PrintWriter(said) {
            @Override
            public void write(String text) {
                super.write(text);
                if (listAfterFirst.isEmpty() && text.contains("Small 1")) {
                    listAfterFirst = list();
                    afterFirst.run();
                }
            }
        };
        Reading reading = new Reading();
        new CommandLine(new Holder(reading))
                .setCaseInsensitiveEnumValuesAllowed(true)
                .parseArgs("--plain");
        Console console = new Console(out, out, reading);
        return new FolderRun(files.files().orElseThrow(), choices, console, stop, PressureDisplay.PSI).run();
    }

    @CommandLine.Command
    private record Holder(@CommandLine.Mixin Reading reading) {}

    private List<RunRecord> records() throws Exception {
        return Records.in(runFolder()).records();
    }

    /** Takes the place of a record, so that it cannot be begun. */
    private void occupy(String record) {
        try {
            Files.createDirectory(runFolder().resolve(record));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private String list() {
        try {
            return Files.readString(runFolder().resolve("session.json"));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private Path runFolder() throws IOException {
        try (Stream<Path> runs = Files.list(folder.resolve("records"))) {
            return runs.findFirst().orElseThrow(() -> new UncheckedIOException(new IOException("no run")));
        }
    }

    private static List<String> because(RunRecord record) {
        return record.findings().stream().map(Finding::because).toList();
    }
}
