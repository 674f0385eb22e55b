package dev.lapwing.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class CheckCommandTest {
    private static final String SEQUENCE = """
            sequence: One figure is misspelt
            purpose: Only a unit can tell.
            needs: [ep-brake]
            steps:
              - handle: full-ep
              - expect:
                  full:
                    settles-at: {signal: brake-cylinder at last, level: ep-ful-band, after: 6 s, over: 500 ms}
            """;

    @TempDir
    Path folder;

    private Path sequence;
    private final StringWriter said = new StringWriter();

    @BeforeEach
    void write() throws Exception {
        sequence = Files.writeString(folder.resolve("mine.yaml"), SEQUENCE);
    }

    @Test
    void withoutAUnitItSaysHowNamesAreLookedUp() {
        assertThat(check(sequence.toString())).isZero();
        assertThat(said.toString()).contains("1 file read, no mistakes").contains("--unit FIXTURE");
    }

    @Test
    void withAUnitAMisspeltFigureIsFoundWithItsPlaceAndWhatWasPerhapsMeant() {
        assertThat(check("--unit", "fixtures/classic.yaml", sequence.toString()))
                .isEqualTo(ExitCode.USAGE.code());
        assertThat(said.toString())
                .contains("mine.yaml:8:", "has no acceptance figure 'ep-ful-band'; did you mean 'ep-full-band'?")
                .contains("1 file read, 1 mistake");
    }

    @Test
    void everyShippedSequenceFindsWhatItNamesInBothUnits() {
        for (String unit : new String[] {"fixtures/classic.yaml", "fixtures/retrofit.yaml"}) {
            assertThat(check("--unit", unit, "sequences")).as(said.toString()).isZero();
        }
    }

    @Test
    void aBenchWithoutWhatASequenceMeasuresIsToldBeforehand() {
        assertThat(check(
                        "--unit",
                        "fixtures/classic.yaml",
                        "--bench",
                        "bench-config/twin-transducers.yaml",
                        "sequences/overhaul/14-train-events.yaml"))
                .isEqualTo(ExitCode.USAGE.code());
    }

    private int check(String... arguments) {
        PrintWriter out = new PrintWriter(said, true);
        String[] all = new String[arguments.length + 1];
        all[0] = "check";
        System.arraycopy(arguments, 0, all, 1, arguments.length);
        return Lapwing.execute(all, out, out);
    }
}
