package dev.lapwing.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a run leaves to be read, and what 'report' makes of it again. */
class ReportedRunTest {
    private static final String CLOSE_CAB = "sequences/overhaul/16-close-cab.yaml";

    @TempDir
    Path folder;

    private final StringWriter said = new StringWriter();

    @Test
    void aWireThatTheUnitDoesNotHaveIsNotDrawnAsOff() throws Exception {
        lapwing("run", "--records", folder.resolve("classic").toString(), CLOSE_CAB);
        lapwing(
                "run",
                "--unit",
                "fixtures/retrofit.yaml",
                "--records",
                folder.resolve("retrofit").toString(),
                CLOSE_CAB);

        assertThat(page("classic")).contains(">holding</text>").doesNotContain(">warning-light</text>");
        assertThat(page("retrofit")).contains(">holding</text>", ">warning-light</text>");
    }

    @Test
    void reportsThatAreWrittenAreNamed() throws Exception {
        lapwing("run", "--records", folder.toString(), CLOSE_CAB);
        String html = folder.resolve("again.html").toString();
        String junit = folder.resolve("again.xml").toString();
        said.getBuffer().setLength(0);

        assertThat(lapwing("report", run(folder).toString(), "--html", html, "--junit", junit))
                .isZero();
        assertThat(said.toString().lines()).containsExactly("Written: " + html, "Written: " + junit);
        assertThat(Files.readString(Path.of(html)))
                .isEqualTo(Files.readString(run(folder).resolve("report.html")));
    }

    private String page(String records) throws Exception {
        return Files.readString(run(folder.resolve(records)).resolve("report.html"));
    }

    private static Path run(Path records) throws Exception {
        try (var runs = Files.list(records)) {
            return runs.filter(Files::isDirectory).findFirst().orElseThrow();
        }
    }

    private int lapwing(String... arguments) {
        PrintWriter out = new PrintWriter(said, true);
        return Lapwing.execute(arguments, out, out);
    }
}
