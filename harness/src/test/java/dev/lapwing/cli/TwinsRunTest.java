package dev.lapwing.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The shipped bench with two transducers on one cylinder, from its file to the exit code. */
class TwinsRunTest {
    private static final Path SHIPPED = Path.of("bench-config/twin-transducers.yaml");
    private static final String STAIRCASE = "sequences/overhaul/02-ep-staircase.yaml";

    @TempDir
    Path folder;

    private final StringWriter said = new StringWriter();

    @Test
    void twinsAgreeThroughAWholeStaircaseWhateverTheSeed() {
        for (String seed : new String[] {"1", "2", "3"}) {
            assertThat(run(SHIPPED, seed)).as(said.toString()).isZero();
        }
        assertThat(said.toString()).contains("pass  throughout/bench-twins-agree");
    }

    @Test
    void transducersThatAreWorseThanClaimedAreSuspectedAndTheUnitIsNotBlamed() throws Exception {
        Path worse = Files.writeString(
                folder.resolve("worse.yaml"),
                Files.readString(SHIPPED).replace("transducer-error: 0.04 %", "transducer-error: 1 %"));
        assertThat(run(worse, "1")).as(said.toString()).isEqualTo(2);
        assertThat(said.toString())
                .contains("Suspicion of the bench: Difference between brake cylinder at vehicle 1 and its twin")
                .contains("puts brake-cylinder@1 under");
    }

    private int run(Path bench, String seed) {
        PrintWriter out = new PrintWriter(said, true);
        String records = folder.resolve("records").toString();
        return Lapwing.execute(
                new String[] {
                    "run", "--plain", "--seed", seed, "--bench", bench.toString(), "--records", records, STAIRCASE
                },
                out,
                out);
    }
}
