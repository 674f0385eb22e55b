package dev.lapwing.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.core.StreamWriteFeature;
import com.fasterxml.jackson.databind.cfg.JsonNodeFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.HexFormat;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** From a bench file that says until when its calibrations hold to the exit code, and back from the record. */
class OverdueRunTest {
    private static final String SEQUENCE = """
            sequence: Empty cylinders
            purpose: A cylinder is empty before anything is switched on.
            needs: [ep-brake]
            steps:
              - expect:
                  empty:
                    stays-between: {signal: brake-cylinder at first, band: always-cylinder-limit, over: 500 ms}
            """;

    @TempDir
    Path folder;

    private final StringWriter said = new StringWriter();

    @Test
    void aRunAfterTheLastDayIsInconclusiveAndSaysWhatWouldMendIt() throws Exception {
        assertThat(run("2020-01-31")).as(said.toString()).isEqualTo(2);
        String printed = said.toString().replaceAll("\\s+", " ");
        assertThat(printed)
                .contains("was due on 2020-01-31: what rests on it will")
                .contains(
                        "as the calibration of brake-cylinder@1 held until 2020-01-31 (calibration/brake-cylinder@1):");
        // Once for the channel where it is listed and once where what needs attention is.
        assertThat(printed.split("The calibration of brake-cylinder@1 \\(point BC1"))
                .hasSize(3);
        assertThat(printed)
                .containsPattern(
                        "held until 2020-01-31 and the run was on 2[0-9-]+\\. Calibrate it with 'bench calibrate"
                                + " [^ ]+ --signal brake-cylinder@1' and run it again\\.");
    }

    @Test
    void aRunOnABenchThatStatesNoDateOrALaterOnePasses() throws Exception {
        assertThat(run("")).as(said.toString()).isZero();
        assertThat(run("2999-12-31")).as(said.toString()).isZero();
    }

    @Test
    void aRecordIsJudgedByTheDayOfItsRun() throws Exception {
        assertThat(run("2999-12-31")).isZero();
        Path summary;
        try (Stream<Path> files = Files.walk(folder.resolve("records-2999-12-31"))) {
            summary =
                    files.filter(file -> file.endsWith("run.json")).findFirst().orElseThrow();
        }
        String record = summary.getParent().toString();
        assertThat(lapwing("judge", record)).as(said.toString()).isZero();

        begunOn(summary, "3000-01-01T00:00:00Z");
        assertThat(lapwing("judge", record)).as(said.toString()).isEqualTo(2);
        assertThat(said.toString()).contains("judged otherwise now: empty: pass, now inconclusive");
    }

    @Test
    void aBenchOutsideThatStatesNoDateIsNoted() throws Exception {
        Path bench = bench("");
        Files.writeString(
                bench,
                Files.readString(bench)
                        .replaceAll("(?s)link:.*?\nclock:", "link: {serial: {device: /dev/ttyACM0}}\nclock:"));

        assertThat(lapwing("check", bench.toString())).as(said.toString()).isZero();
        assertThat(said.toString())
                .contains("note: no date says until when the calibration holds of any of the 19 calibrated");
        assertThat(said.toString())
                .contains("note: nothing says how well the span is known of any of the 19 calibrated");
    }

    @Test
    void whatIsOverdueIsNotedAsEveryOtherNoteIs() throws Exception {
        Path bench = bench("2020-01-31");
        assertThat(lapwing("check", bench.toString())).as(said.toString()).isZero();
        assertThat(said.toString())
                .containsOnlyOnce(bench + ": note: the calibration of brake-pipe@1, ")
                .contains(" was due on 2020-01-31: what rests on it will be inconclusive\n");
    }

    private int run(String due) throws Exception {
        Path sequence = Files.writeString(folder.resolve("empty.yaml"), SEQUENCE);
        String records = folder.resolve("records-" + due).toString();
        return lapwing("run", "--plain", "--bench", bench(due).toString(), "--records", records, sequence.toString());
    }

    private Path bench(String due) throws Exception {
        String shipped = Files.readString(Path.of("bench-config/simulated.yaml"));
        String dated =
                due.isEmpty() ? shipped : shipped.replaceAll("    date: .*", "    date: 2019-01-31\n    due: " + due);
        return Files.writeString(folder.resolve("bench.yaml"), dated);
    }

    private int lapwing(String... arguments) {
        PrintWriter out = new PrintWriter(said, true);
        return Lapwing.execute(arguments, out, out);
    }

    /** Another day in a record, sealed again. */
    private static void begunOn(Path summary, String instant) throws Exception {
        JsonMapper json = JsonMapper.builder()
                .enable(JsonNodeFeature.WRITE_PROPERTIES_SORTED)
                .enable(StreamWriteFeature.USE_FAST_DOUBLE_WRITER)
                .build();
        ObjectNode changed = (ObjectNode) json.readTree(summary.toFile());
        ((ObjectNode) changed.get("run")).put("started", instant);
        changed.put("seal", "");
        byte[] sha256 = MessageDigest.getInstance("SHA-256").digest(json.writeValueAsBytes(changed));
        changed.put("seal", HexFormat.of().formatHex(sha256));
        Files.write(summary, json.writeValueAsBytes(changed));
    }
}
