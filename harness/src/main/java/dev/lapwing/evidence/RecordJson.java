package dev.lapwing.evidence;

import com.fasterxml.jackson.core.JacksonException;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.core.StreamWriteFeature;
import com.fasterxml.jackson.core.json.JsonReadFeature;
import com.fasterxml.jackson.core.type.TypeReference;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.MapperFeature;
import com.fasterxml.jackson.databind.PropertyNamingStrategies;
import com.fasterxml.jackson.databind.SerializationFeature;
import com.fasterxml.jackson.databind.cfg.EnumFeature;
import com.fasterxml.jackson.databind.cfg.JsonNodeFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.fasterxml.jackson.datatype.jdk8.Jdk8Module;
import com.fasterxml.jackson.datatype.jsr310.JavaTimeModule;
import java.io.IOException;
import java.util.Arrays;

/**
 * JSON of a record in one form only: keys sorted, doubles in the fewest digits that read back the same, no NaN and no
 * infinity. Equal things give equal bytes on every machine.
 */
final class RecordJson {
    private static final JsonMapper MAPPER = JsonMapper.builder()
            // Java 17's own printing of doubles is not always the shortest, and later releases print others.
            .enable(StreamWriteFeature.USE_FAST_DOUBLE_WRITER)
            .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
            .disable(JsonReadFeature.ALLOW_NON_NUMERIC_NUMBERS)
            .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
            .enable(DeserializationFeature.FAIL_ON_NULL_FOR_PRIMITIVES)
            .enable(MapperFeature.ACCEPT_CASE_INSENSITIVE_ENUMS)
            .enable(EnumFeature.WRITE_ENUMS_TO_LOWERCASE)
            .enable(JsonNodeFeature.WRITE_PROPERTIES_SORTED)
            .disable(SerializationFeature.WRITE_DATES_AS_TIMESTAMPS)
            .propertyNamingStrategy(PropertyNamingStrategies.KEBAB_CASE)
            .addModule(new Jdk8Module())
            .addModule(new JavaTimeModule())
            .addModule(new PlanShapes())
            .addModule(new NameShapes())
            .addModule(new BudgetShapes())
            .build();

    private static final DefaultPrettyPrinter INDENTED = new DefaultPrettyPrinter()
            .withObjectIndenter(new DefaultIndenter("  ", "\n"))
            .withArrayIndenter(new DefaultIndenter("  ", "\n"));

    private RecordJson() {}

    /** As a tree. Throws {@link IllegalArgumentException} if a figure in it is not finite. */
    static JsonNode tree(Object value) {
        JsonNode tree = MAPPER.valueToTree(value);
        checkFinite(tree, "");
        return tree;
    }

    /** The form for people and files, ending in a line feed. */
    static byte[] file(JsonNode tree) {
        try {
            byte[] json = MAPPER.writer(INDENTED).writeValueAsBytes(tree);
            byte[] line = Arrays.copyOf(json, json.length + 1);
            line[json.length] = '\n';
            return line;
        } catch (JsonProcessingException e) {
            throw new IllegalStateException("a tree that was made here cannot be written", e);
        }
    }

    /** The form for checksums: no white space. */
    static byte[] compact(JsonNode tree) {
        try {
            return MAPPER.writeValueAsBytes(tree);
        } catch (JsonProcessingException e) {
            throw new IllegalStateException("a tree that was made here cannot be written", e);
        }
    }

    /** The seal of something that has a {@code seal}: SHA-256 of its compact form with an empty one. */
    static String seal(Object value) {
        return Sha256.of(compact(((ObjectNode) tree(value)).put("seal", "")));
    }

    static JsonNode parse(String name, byte[] json) throws UnreadableRecord {
        try {
            return MAPPER.readTree(json);
        } catch (IOException e) {
            throw unreadable(name, e);
        }
    }

    static <T> T read(String name, byte[] json, TypeReference<T> type) throws UnreadableRecord {
        try {
            T value = MAPPER.readValue(json, type);
            if (value == null) {
                throw new UnreadableRecord(name + ": holds nothing");
            }
            return value;
        } catch (IOException e) {
            throw unreadable(name, e);
        }
    }

    private static UnreadableRecord unreadable(String name, IOException e) {
        String why = e instanceof JacksonException jackson ? jackson.getOriginalMessage() : DiskReason.of(e);
        String where = e instanceof JacksonException jackson && jackson.getLocation() != null
                ? ":" + jackson.getLocation().getLineNr() + ":"
                        + jackson.getLocation().getColumnNr()
                : "";
        return new UnreadableRecord(name + where + ": not the JSON of a run record: " + why, e);
    }

    private static void checkFinite(JsonNode node, String path) {
        if (node.isFloatingPointNumber() && !Double.isFinite(node.doubleValue())) {
            throw new IllegalArgumentException("a record cannot hold " + node.doubleValue() + " at " + path);
        }
        node.properties().forEach(field -> checkFinite(field.getValue(), path + "/" + field.getKey()));
        for (int i = 0; node.isArray() && i < node.size(); i++) {
            checkFinite(node.get(i), path + "/" + i);
        }
    }
}
