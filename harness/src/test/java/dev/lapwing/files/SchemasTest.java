package dev.lapwing.files;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaLocation;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import dev.lapwing.fixture.SimulationFigure;
import dev.lapwing.naming.Ability;
import dev.lapwing.naming.DesignFlag;
import dev.lapwing.naming.DesignOption;
import dev.lapwing.sequence.AlwaysProperty;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The JSON Schemas that editors go by: as the models say, and of one mind with the readers. After a change of a model
 * write them anew with {@code -Dlapwing.schemas=write}.
 */
class SchemasTest {
    private static final Path FOLDER = Path.of("harness/src/main/resources/dev/lapwing/files");
    private static final ObjectMapper JSON = new ObjectMapper();

    @TempDir
    private Path folder;

    static List<Path> files() {
        return Stream.concat(Good.ALL.stream(), ShippedFilesTest.shipped().stream())
                .toList();
    }

    @ParameterizedTest
    @EnumSource(FileKind.class)
    void isWhatTheModelSays(FileKind kind) throws IOException {
        String due = JSON.writer(new DefaultPrettyPrinter()
                                .withObjectIndenter(new DefaultIndenter("  ", "\n"))
                                .withArrayIndenter(new DefaultPrettyPrinter.FixedSpaceIndenter()))
                        .writeValueAsString(model(kind))
                + "\n";
        if ("write".equals(System.getProperty("lapwing.schemas"))) {
            Files.writeString(path(kind), due, UTF_8);
        }
        assertThat(Files.readString(path(kind), UTF_8)).isEqualTo(due);
    }

    @ParameterizedTest
    @EnumSource(FileKind.class)
    void isItselfAValidSchema(FileKind kind) throws IOException {
        Schema draft = SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                .getSchema(SchemaLocation.of("https://json-schema.org/draft/2020-12/schema"));
        assertThat(draft.validate(JSON.readTree(Files.readString(path(kind), UTF_8))))
                .isEmpty();
    }

    @ParameterizedTest
    @MethodSource("files")
    void acceptsWhatIsGood(Path file) throws IOException {
        FileKind kind = FileKind.of(file).value().orElseThrow();
        assertThat(schema(kind).validate(EditorTree.of(file))).isEmpty();
    }

    @Test
    void holdsEveryWordOfTheLanguage() throws IOException {
        Set<String> sequence = words(JSON.readTree(Files.readString(path(FileKind.SEQUENCE), UTF_8)));
        assertThat(sequence).containsAll(Shapes.STIMULI).containsAll(Shapes.EXPECTATIONS.keySet());
        assertThat(sequence).containsAll(Shapes.PLAIN_STEPS).containsAll(Shapes.STEPS_WITH_DO);
        assertThat(sequence).containsAll(texts(Ability.values(), Ability::text));
        assertThat(sequence).containsAll(texts(AlwaysProperty.values(), AlwaysProperty::text));
        Set<String> fixture = words(JSON.readTree(Files.readString(path(FileKind.FIXTURE), UTF_8)));
        assertThat(fixture).containsAll(texts(Ability.values(), Ability::text));
        for (Set<String> either : List.of(sequence, fixture)) {
            assertThat(either).containsAll(texts(DesignFlag.values(), DesignFlag::text));
            assertThat(either).containsAll(texts(DesignOption.values(), DesignOption::text));
        }
        assertThat(fixture)
                .containsAll(texts(
                        SimulationFigure.values(),
                        figure -> figure.path().substring(figure.path().indexOf('.') + 1)));
    }

    /** Each value of each good file spoilt in turn. What the schema refuses is a mistake for the reader as well. */
    @ParameterizedTest
    @EnumSource(FileKind.class)
    void refusesNothingThatTheReaderTakes(FileKind kind) throws IOException {
        Path good = good(kind);
        JsonNode root = EditorTree.of(good);
        Schema schema = schema(kind);
        copyGood();
        int refused = 0;
        for (Spoiling.Spoilt spoilt : Spoiling.everyValue(root)) {
            boolean refuses = !schema.validate(spoilt.root()).isEmpty();
            if (refuses) {
                refused++;
                assertThat(check(good, spoilt.root()).mistakes())
                        .as(spoilt.what())
                        .isNotEmpty();
            }
        }
        assertThat(refused).isGreaterThan(5);
    }

    /** A key that is none is seen by the editor and by the reader alike. */
    @ParameterizedTest
    @EnumSource(FileKind.class)
    void seesEveryMistypedKeyThatTheReaderSees(FileKind kind) throws IOException {
        Path good = good(kind);
        JsonNode root = EditorTree.of(good);
        Schema schema = schema(kind);
        copyGood();
        List<String> missed = new ArrayList<>();
        for (Spoiling.Spoilt spoilt : Spoiling.everyKey(root)) {
            boolean unknown = check(good, spoilt.root()).mistakes().stream()
                    .anyMatch(mistake -> mistake.found().startsWith("unknown key"));
            if (unknown && schema.validate(spoilt.root()).isEmpty()) {
                missed.add(spoilt.what());
            }
        }
        assertThat(missed).isEmpty();
    }

    private Loaded<?> check(Path good, JsonNode root) throws IOException {
        Path file = folder.resolve(good.getFileName());
        Files.writeString(file, JSON.writeValueAsString(root), UTF_8);
        return FileKind.check(file);
    }

    private void copyGood() throws IOException {
        for (Path file : Good.ALL) {
            Files.copy(file, folder.resolve(file.getFileName()));
        }
    }

    private static Path good(FileKind kind) {
        return switch (kind) {
            case SEQUENCE -> Good.SEQUENCE;
            case PARTS -> Good.PARTS;
            case FIXTURE -> Good.FIXTURE;
            case BENCH -> Good.BENCH;
        };
    }

    private static Map<String, Object> model(FileKind kind) {
        return switch (kind) {
            case SEQUENCE -> SequenceSchema.sequence();
            case PARTS -> SequenceSchema.parts();
            case FIXTURE -> FixtureSchema.fixture();
            case BENCH -> BenchSchema.bench();
        };
    }

    private static Path path(FileKind kind) {
        return FOLDER.resolve(kind.key() + ".schema.json");
    }

    private static Schema schema(FileKind kind) throws IOException {
        return SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                .getSchema(Files.readString(path(kind), UTF_8));
    }

    /** Every key and every text in a schema. */
    private static Set<String> words(JsonNode node) {
        Set<String> words = new TreeSet<>();
        node.fieldNames().forEachRemaining(words::add);
        if (node.isTextual()) {
            words.add(node.asText());
        }
        node.forEach(child -> words.addAll(words(child)));
        return words;
    }

    private static <T> List<String> texts(T[] values, Function<T, String> text) {
        return Arrays.stream(values).map(text).toList();
    }
}
