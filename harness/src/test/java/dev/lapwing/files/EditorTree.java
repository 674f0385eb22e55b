package dev.lapwing.files;

import static java.nio.charset.StandardCharsets.UTF_8;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.BooleanNode;
import com.fasterxml.jackson.databind.node.DecimalNode;
import com.fasterxml.jackson.databind.node.IntNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.NullNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.fasterxml.jackson.databind.node.TextNode;
import dev.lapwing.source.Mistakes;
import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * A file as an editor hands it to a schema. Source: YAML 1.2.2, section 10.3.2, the core schema's tag resolution, in
 * which on, off, yes and no are words and not booleans.
 */
final class EditorTree {
    private EditorTree() {}

    static JsonNode of(Path file) throws IOException {
        return of(YamlTree.of(file.toString(), Files.readString(file, UTF_8), new Mistakes())
                .orElseThrow());
    }

    private static JsonNode of(Node node) {
        if (node instanceof Node.Entries entries) {
            ObjectNode object = JsonNodeFactory.instance.objectNode();
            entries.entries().forEach(entry -> object.set(entry.key(), of(entry.value())));
            return object;
        }
        if (node instanceof Node.Items items) {
            ArrayNode array = JsonNodeFactory.instance.arrayNode();
            items.nodes().forEach(item -> array.add(of(item)));
            return array;
        }
        return scalar(node instanceof Node.Scalar scalar ? scalar.text() : "");
    }

    private static JsonNode scalar(String text) {
        if (text.isEmpty()) {
            return NullNode.instance;
        }
        if (text.matches("true|false")) {
            return BooleanNode.valueOf(text.equals("true"));
        }
        if (text.matches("[-+]?[0-9]{1,9}")) {
            return IntNode.valueOf(Integer.parseInt(text));
        }
        if (text.matches("[-+]?(\\.[0-9]+|[0-9]+(\\.[0-9]*)?)([eE][-+]?[0-9]+)?")) {
            return DecimalNode.valueOf(new BigDecimal(text));
        }
        return TextNode.valueOf(text);
    }
}
