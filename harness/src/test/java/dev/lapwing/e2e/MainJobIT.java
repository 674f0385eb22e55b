package dev.lapwing.e2e;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import dev.lapwing.e2e.Shipped.Ended;
import java.io.BufferedReader;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.Execution;
import org.junit.jupiter.api.parallel.ExecutionMode;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.w3c.dom.Element;

/** The main job as a user has it: the shipped launcher, the shipped files, what it prints and what it leaves. */
class MainJobIT {
    private static final String CREW_TEST = "sequences/overhaul/12-crew-ep-test.yaml";

    @TempDir
    Path records;

    @Test
    @Execution(ExecutionMode.CONCURRENT)
    void theOverhaulOfAHealthyUnitPassesAndTerminalPageAndXmlSayTheSame() throws Exception {
        Ended run = Shipped.lapwing("run", "--plain", "--records", records, "sequences/overhaul");

        assertThat(run.exit()).as(run.out() + run.err()).isZero();
        Matcher last = Pattern.compile("(\\d+) sequences, (\\d+) pass, (\\d+) none +pass")
                .matcher(run.out());
        assertThat(last.find()).as(run.out()).isTrue();
        Path folder = onlyFolder();
        Element suite = DocumentBuilderFactory.newInstance()
                .newDocumentBuilder()
                .parse(folder.resolve("junit.xml").toFile())
                .getDocumentElement();
        int all = Integer.parseInt(last.group(2)) + Integer.parseInt(last.group(3));
        assertThat(suite.getAttribute("tests")).isEqualTo(String.valueOf(all));
        assertThat(suite.getAttribute("skipped")).isEqualTo(last.group(3));
        assertThat(List.of(suite.getAttribute("failures"), suite.getAttribute("errors")))
                .containsOnly("0");
        String page = Files.readString(folder.resolve("report.html"));
        assertThat(page).contains(last.group(2) + " pass, " + last.group(3) + " none");
        assertThat(Files.size(folder.resolve("report.html"))).isLessThan(5_000_000);
    }

    @ParameterizedTest
    @Execution(ExecutionMode.CONCURRENT)
    @CsvSource({
        "worn-lap-leak, 05-lap, ep-holds-in-lap, limit at most 1.5 psi",
        "worn-slow-dump, 08-deadman, head-pipe-falls-forward, limit at most 1.5 s",
        "worn-dead-holding-wire, 02-ep-staircase, rear-agrees-going-up, limit within"
    })
    void aWornUnitIsFoundAndTheExpectationNamed(String unit, String sequence, String expectation, String limit)
            throws Exception {
        Ended run = Shipped.lapwing(
                "run",
                "--plain",
                "--records",
                records,
                "--unit",
                "fixtures/" + unit + ".yaml",
                "sequences/overhaul/" + sequence + ".yaml");

        assertThat(run.exit()).as(run.out() + run.err()).isEqualTo(1);
        String summary = run.out().substring(run.out().lastIndexOf("FAIL  " + sequence + ": " + expectation));
        assertThat(summary.replaceAll("\\s+", " "))
                .containsPattern("\\(k = 2(\\.\\d+)?\\)")
                .contains(limit, "outside by");
    }

    @Test
    @Execution(ExecutionMode.CONCURRENT)
    void theSameSeedGivesTheSameEvidenceAndAnotherSeedAnother() throws Exception {
        String first = evidence("a", 5);

        assertThat(first).matches("[0-9a-f]{64}");
        assertThat(evidence("b", 5)).isEqualTo(first);
        assertThat(evidence("c", 6)).isNotEqualTo(first);
    }

    @Test
    @Execution(ExecutionMode.CONCURRENT)
    void aRecordIsJudgedAgainAndItsFindingsStand() throws Exception {
        Shipped.lapwing("run", "--plain", "--records", records, CREW_TEST);
        Ended judged = Shipped.lapwing("judge", "--plain", onlyFolder());

        assertThat(judged.exit()).as(judged.out() + judged.err()).isZero();
        assertThat(judged.out()).contains("every finding stands; evidence-sha256 ");
    }

    @Test
    @Execution(ExecutionMode.CONCURRENT)
    void ctrlCInMidRunEndsWithTheBenchSafeAndTheRecordReadable() throws Exception {
        Process process = Shipped.startHearingCtrlC("run", "--plain", "--records", records, "sequences/overhaul");
        BufferedReader out = process.inputReader();
        String line = out.readLine();
        while (line != null && !line.startsWith("  01-open-cab-and-charge")) {
            line = out.readLine();
        }
        interrupt(process);
        Ended ended = Shipped.ended(process);

        assertThat(ended.exit()).as(ended.err()).isEqualTo(3);
        assertThat(ended.err()).contains("stopping");
        Path cut = lastRecord(onlyFolder());
        assertThat(Shipped.lapwing("judge", "--plain", cut).exit()).isEqualTo(3);
        JsonNode summary = new ObjectMapper().readTree(cut.resolve("run.json").toFile());
        assertThat(summary.path("verdict").asText()).isEqualToIgnoringCase("error");
    }

    @Test
    @Execution(ExecutionMode.CONCURRENT)
    void aUnitThatNeverAnswersFailsAndDoesNotHang() throws Exception {
        Ended run = crewTest("deaf", """
                fixture: Harrowmere Light Railway unit whose application wire is broken behind vehicle 1
                based-on: %s
                simulation:
                  wire-faults:
                    - {wire: application, behind: 1, fault: open}
                """);

        assertThat(run.exit()).as(run.out() + run.err()).isEqualTo(1);
        assertThat(run.out().replaceAll("\\s+", " ")).contains("did not rise above 45 psi");
    }

    @Test
    @Execution(ExecutionMode.CONCURRENT)
    void whereNoCylinderAtAllAnswersAnOrderOnTheWiresTheBenchIsSuspectedFirst() throws Exception {
        Ended run = crewTest("airless", """
                fixture: Harrowmere Light Railway unit behind valves that pass next to nothing
                based-on: %s
                simulation:
                  train:
                    ep-apply-conductance: 0.01 dm3/(s.bar)
                """);

        assertThat(run.exit()).as(run.out() + run.err()).isEqualTo(2);
        assertThat(run.out().replaceAll("\\s+", " "))
                .contains("throughout/bench-orders-reach-a-cylinder puts brake-cylinder@4 under suspicion");
    }

    private Ended crewTest(String name, String fixture) throws Exception {
        Path unit = Files.writeString(
                records.resolve(name + ".yaml"),
                fixture.formatted(Path.of("fixtures/classic.yaml").toAbsolutePath()));
        return Shipped.lapwing("run", "--plain", "--records", records.resolve("r"), "--unit", unit, CREW_TEST);
    }

    @Test
    @Execution(ExecutionMode.CONCURRENT)
    void aPressureThatNeverComesIsInconclusiveWithTheReason() throws Exception {
        Path empty = Files.writeString(records.resolve("empty.yaml"), """
                fixture: Harrowmere Light Railway unit with a feed that is all but blocked
                based-on: %s
                simulation:
                  cab:
                    feed-conductance: 0.02 dm3/(s.bar)
                """.formatted(
                        Path.of("fixtures/classic.yaml").toAbsolutePath()));
        Ended run = Shipped.lapwing("run", "--plain", "--records", records.resolve("r"), "--unit", empty, CREW_TEST);

        assertThat(run.exit()).as(run.out() + run.err()).isEqualTo(2);
        assertThat(run.out().replaceAll("\\s+", " ")).contains("Not reached: wait until auxiliary reservoir");
    }

    private String evidence(String folder, long seed) throws IOException, InterruptedException {
        Path into = records.resolve(folder);
        Shipped.lapwing("run", "--plain", "--records", into, "--seed", seed, CREW_TEST);
        try (Stream<Path> files = Files.walk(into)) {
            Path run =
                    files.filter(file -> file.endsWith("run.json")).findFirst().orElseThrow();
            return new ObjectMapper()
                    .readTree(run.toFile())
                    .path("evidence-sha256")
                    .asText();
        }
    }

    /** The record of the sequence that was stopped: which one it was depends on how fast the machine is. */
    private static Path lastRecord(Path folder) throws IOException {
        try (Stream<Path> inside = Files.list(folder)) {
            return inside.filter(Files::isDirectory)
                    .max(Comparator.naturalOrder())
                    .orElseThrow();
        }
    }

    private Path onlyFolder() throws IOException {
        try (Stream<Path> inside = Files.list(records)) {
            return inside.filter(Files::isDirectory).findFirst().orElseThrow();
        }
    }

    private static void interrupt(Process process) throws IOException, InterruptedException {
        Process kill = new ProcessBuilder("kill", "-INT", String.valueOf(process.pid())).start();
        assertThat(kill.waitFor(1, TimeUnit.MINUTES)).isTrue();
    }
}
