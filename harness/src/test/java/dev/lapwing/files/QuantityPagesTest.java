package dev.lapwing.files;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.annotation.JsonSubTypes;
import dev.lapwing.plan.CheckKinds;
import dev.lapwing.sequence.ResponseTerm;
import dev.lapwing.sequence.StaircaseTerm;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The manual has a page for whatever is measured, and its examples are read. */
class QuantityPagesTest {
    private static final Path FOLDER = Path.of("harness/docs/quantities");
    private static final List<String> HEADINGS =
            List.of("Definition", "Formula", "Source", "What it needs", "When it refuses", "Doubt", "Example");
    private static final Pattern EXAMPLE = Pattern.compile("```yaml\n(.*?)```", Pattern.DOTALL);
    private static final Pattern KIND = Pattern.compile("Kind in the record: `([a-z-]+)`");

    @TempDir
    private Path folder;

    @Test
    void everyKindOfCheckHasItsPage() throws Exception {
        JsonSubTypes kinds =
                Class.forName("dev.lapwing.evidence.PlanShapes$Measured").getAnnotation(JsonSubTypes.class);
        List<String> known =
                Arrays.stream(kinds.value()).map(JsonSubTypes.Type::name).toList();

        assertThat(kinds.value()).extracting(JsonSubTypes.Type::value).containsAll(CheckKinds.all());
        assertThat(found(KIND)).containsAll(known).isSubsetOf(known);
    }

    @Test
    void everyWordThatAsksForAQuantityStandsInAnExample() throws IOException {
        String examples = String.join("\n", found(EXAMPLE));

        assertThat(Shapes.EXPECTATIONS.keySet())
                .allSatisfy(verb -> assertThat(examples).contains("{" + verb + ": {"));
        assertThat(StaircaseTerm.values())
                .allSatisfy(term -> assertThat(examples).contains("term: " + term.text()));
        assertThat(ResponseTerm.values())
                .filteredOn(term -> term != ResponseTerm.LOW_STATE)
                .allSatisfy(term -> assertThat(examples).contains("term: " + term.text()));
    }

    @Test
    void theIndexNamesEveryPage() throws IOException {
        String index = Files.readString(FOLDER.resolve("README.md"), UTF_8);

        assertThat(pages()).allSatisfy(page -> assertThat(index).contains("(" + page.getFileName() + ")"));
    }

    @ParameterizedTest
    @MethodSource("pages")
    void aPageSaysAllThatAReaderAsks(Path page) throws IOException {
        String text = Files.readString(page, UTF_8);

        assertThat(text.lines().filter(line -> line.startsWith("## ")).map(line -> line.substring(3)))
                .containsExactlyElementsOf(HEADINGS);
    }

    @ParameterizedTest
    @MethodSource("pages")
    void theExampleOfAPageIsRead(Path page) throws IOException {
        String example = EXAMPLE.matcher(Files.readString(page, UTF_8))
                .results()
                .findFirst()
                .orElseThrow()
                .group(1);
        Path file = folder.resolve("example.yaml");
        Files.writeString(
                file,
                "sequence: an example\npurpose: It is read.\nsteps:\n  - handle: release\n  - expect:\n"
                        + example.indent(6),
                UTF_8);

        assertThat(SequenceFiles.load(file).mistakes()).isEmpty();
    }

    static List<Path> pages() throws IOException {
        try (Stream<Path> files = Files.list(FOLDER)) {
            return files.filter(file -> !file.endsWith("README.md")).sorted().toList();
        }
    }

    private static List<String> found(Pattern pattern) throws IOException {
        List<String> found = new ArrayList<>();
        for (Path page : pages()) {
            pattern.matcher(Files.readString(page, UTF_8))
                    .results()
                    .map(MatchResult::group)
                    .forEach(found::add);
        }
        return found.stream()
                .map(text -> text.replaceAll("^Kind in the record: `|`$", ""))
                .toList();
    }
}
