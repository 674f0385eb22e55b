package dev.lapwing.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.core.StreamWriteFeature;
import com.fasterxml.jackson.databind.cfg.JsonNodeFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.lapwing.evidence.RunRecord;
import dev.lapwing.finding.Verdict;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.HexFormat;
import java.util.function.Consumer;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What was no pass never becomes one by being judged again, nor what is not whole, however it was tampered with. */
class JudgedAgainTest {
    private static final JsonMapper JSON = JsonMapper.builder()
            .enable(JsonNodeFeature.WRITE_PROPERTIES_SORTED)
            .enable(StreamWriteFeature.USE_FAST_DOUBLE_WRITER)
            .build();

    @TempDir
    Path folder;

    private final StringWriter said = new StringWriter();
    private Path records = Path.of("");

    @BeforeEach
    void twoThatPassed() throws Exception {
        for (String name : new String[] {"1", "2"}) {
            SmallSequence.write(folder.resolve("sequences"), name, SmallSequence.TEXT);
        }
        String to = folder.resolve("records").toString();
        assertThat(lapwing("run", "--records", to, folder.resolve("sequences").toString()))
                .isZero();
        try (var runs = Files.list(folder.resolve("records"))) {
            records = runs.findFirst().orElseThrow();
        }
    }

    @Test
    void whatStandsIsAPassAgain() {
        assertThat(lapwing("judge", records.toString())).as(said.toString()).isZero();
    }

    @Test
    void evidenceThatIsNotWhatWasProvenIsNoPass() throws Exception {
        summary(run -> run.put("evidence-sha256", "0".repeat(64)));
        assertThat(RunRecord.open(records.resolve("1")).verdict()).isEqualTo(Verdict.PASS);

        assertThat(lapwing("judge", records.toString())).as(said.toString()).isEqualTo(3);
    }

    @Test
    void aRunThatWasNeverFinishedIsNoPass() throws Exception {
        summary(run -> run.putNull("ended").putNull("verdict"));

        assertThat(lapwing("judge", records.toString())).as(said.toString()).isEqualTo(3);
        assertThat(said.toString()).contains("the run was not finished");
    }

    @Test
    void aFindingThatFailedThenAndPassesNowMakesNoPass() throws Exception {
        Path file = records.resolve("1").resolve("findings.json");
        ArrayNode findings = (ArrayNode) JSON.readTree(file.toFile());
        ((ObjectNode) findings.get(0)).put("verdict", "fail");
        Files.write(file, JSON.writeValueAsBytes(findings));
        byte[] sha256 = MessageDigest.getInstance("SHA-256").digest(Files.readAllBytes(file));
        summary(run -> ((ObjectNode) run.put("verdict", "fail").get("sha256"))
                .put("findings.json", HexFormat.of().formatHex(sha256)));
        assertThat(RunRecord.open(records.resolve("1")).verdict()).isEqualTo(Verdict.FAIL);

        assertThat(lapwing("judge", records.toString())).as(said.toString()).isEqualTo(3);
        assertThat(said.toString()).contains("fail, now pass", "not what evidence-sha256 was computed over");
    }

    @Test
    void aRecordThatLostItsSummaryIsMissedAndNotPassedOver() throws Exception {
        Files.delete(records.resolve("1").resolve("run.json"));

        assertThat(lapwing("judge", records.toString())).as(said.toString()).isEqualTo(64);
        assertThat(lapwing("report", records.toString())).as(said.toString()).isEqualTo(64);
        assertThat(said.toString()).contains("it has no run.json");
    }

    @Test
    void aRecordThatWasDeletedWholeIsMissedInEveryReport() throws Exception {
        delete(records.resolve("2"));
        Path html = folder.resolve("again.html");
        Path junit = folder.resolve("again.xml");

        assertThat(lapwing("judge", records.toString())).as(said.toString()).isEqualTo(3);
        assertThat(said.toString()).contains("2, no record", "judged again: error");
        said.getBuffer().setLength(0);
        lapwing("report", "--plain", records.toString());
        assertThat(said.toString()).contains("ERROR  2: no record").containsPattern("1 of 2 sequences, .* ERROR");
        lapwing("report", records.toString(), "--html", html.toString(), "--junit", junit.toString());
        assertThat(Files.readString(html)).contains("<title>error: ", "2: This sequence was run, and its record");
        assertThat(Files.readString(junit)).contains("errors=\"1\"", "classname=\"2\"");
    }

    @Test
    void whereEveryRecordWasDeletedTheRunSaysWhatItShouldHold() throws Exception {
        delete(records.resolve("1"));
        delete(records.resolve("2"));

        assertThat(lapwing("judge", records.toString())).isEqualTo(64);
        assertThat(said.toString()).contains("holds no run record (1: no record; 2: no record)");
    }

    @Test
    void aListThatWasTamperedWithIsAnErrorAndEveryRecordIsStillJudged() throws Exception {
        Path list = records.resolve("session.json");
        Files.writeString(list, Files.readString(list).replace("\"seed\" : 1", "\"seed\" : 2"));

        assertThat(lapwing("judge", records.toString())).as(said.toString()).isEqualTo(3);
        assertThat(said.toString()).contains("session.json, not as it was written");
        assertThat(said.toString().split("every finding stands", -1)).hasSize(3);
    }

    @Test
    void aListThatIsGoneIsMissedAndNoReasonNotToJudgeARecordByItself() throws Exception {
        Files.delete(records.resolve("session.json"));
        delete(records.resolve("2"));

        assertThat(lapwing("judge", records.toString())).as(said.toString()).isEqualTo(3);
        assertThat(said.toString()).contains("session.json is missing;");
        assertThat(lapwing("judge", records.resolve("1").toString()))
                .as(said.toString())
                .isZero();
    }

    private static void delete(Path record) throws Exception {
        try (var files = Files.list(record)) {
            for (Path file : files.toList()) {
                Files.delete(file);
            }
        }
        Files.delete(record);
    }

    /** Changes the first summary, and seals it again. */
    private void summary(Consumer<ObjectNode> change) throws Exception {
        Path file = records.resolve("1").resolve("run.json");
        ObjectNode run = (ObjectNode) JSON.readTree(file.toFile());
        change.accept(run.put("seal", ""));
        byte[] sha256 = MessageDigest.getInstance("SHA-256").digest(JSON.writeValueAsBytes(run));
        Files.write(file, JSON.writeValueAsBytes(run.put("seal", HexFormat.of().formatHex(sha256))));
    }

    private int lapwing(String... arguments) {
        PrintWriter out = new PrintWriter(said, true);
        return Lapwing.execute(arguments, out, out);
    }
}
