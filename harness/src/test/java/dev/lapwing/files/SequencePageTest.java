package dev.lapwing.files;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.fixture.Fixture;
import dev.lapwing.plan.Resolution;
import dev.lapwing.plan.Resolver;
import dev.lapwing.plan.Subject;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.sequence.AlwaysProperty;
import dev.lapwing.sequence.Sequence;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The manual's page on sequences names all that the reader knows, and its example is read. */
class SequencePageTest {
    private static final Path PAGE = Path.of("harness/docs/sequences.md");
    private static final Pattern EXAMPLE = Pattern.compile("```yaml\n(.*?)```", Pattern.DOTALL);

    @TempDir
    private Path folder;

    private String page;
    private JsonNode schema;

    @BeforeEach
    void read() throws IOException {
        page = Files.readString(PAGE, UTF_8);
        try (InputStream json = FileKind.class.getResourceAsStream("sequence.schema.json")) {
            schema = new ObjectMapper().readTree(json);
        }
    }

    @Test
    void everyKeyOfASequenceAndEveryStepStandsOnThePage() {
        List<String> keys = new ArrayList<>();
        for (JsonNode known : List.of(schema, schema.path("$defs").path("step"))) {
            known.path("properties").properties().forEach(property -> keys.add(property.getKey()));
        }

        assertThat(keys)
                .hasSizeGreaterThan(30)
                .allSatisfy(key -> assertThat(page).containsPattern("`" + key + "[`:]"));
    }

    @Test
    void whatHoldsThroughoutStandsThereInTheWordsOfTheReports() {
        assertThat(Arrays.stream(AlwaysProperty.values()).filter(property -> !property.ofBench()))
                .allSatisfy(property ->
                        assertThat(page).contains("| `" + property.text() + "` | " + property.sentence() + " |"));
    }

    @Test
    void itsExampleIsReadAndFindsAllThatItNames() throws IOException {
        String example =
                EXAMPLE.matcher(page).results().findFirst().orElseThrow().group(1);
        Loaded<Sequence> read = SequenceFiles.load(Files.writeString(folder.resolve("example.yaml"), example, UTF_8));
        assertThat(read.mistakes()).isEmpty();

        Fixture unit =
                FixtureFiles.load(Path.of("fixtures/classic.yaml")).value().orElseThrow();
        BenchFile bench =
                BenchFiles.load(Path.of("bench-config/simulated.yaml")).value().orElseThrow();
        assertThat(Resolver.resolve(read.value().orElseThrow(), Subject.of(unit), bench, PressureDisplay.PSI))
                .isInstanceOf(Resolution.Resolved.class);
    }
}
