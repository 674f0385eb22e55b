package dev.lapwing.files;

import com.fasterxml.jackson.core.JsonPointer;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.IntNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.fasterxml.jackson.databind.node.TextNode;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;

/** Copies of a tree with one thing wrong in each. */
final class Spoiling {
    private static final List<JsonNode> OTHERS = List.of(
            new TextNode("50 psi"),
            new IntNode(250),
            JsonNodeFactory.instance.arrayNode().add("a").add("b"),
            JsonNodeFactory.instance.objectNode().put("a", "b"));

    private Spoiling() {}

    /** A copy and what is wrong with it. */
    record Spoilt(JsonNode root, String what) {}

    private record Key(JsonPointer map, String name) {}

    /** Each value left out or replaced by one of another kind, in turn, so that all kinds are had. */
    static List<Spoilt> everyValue(JsonNode root) {
        List<Spoilt> all = new ArrayList<>();
        for (Key key : keys(root, JsonPointer.empty())) {
            int kind = all.size() % (OTHERS.size() + 1);
            all.add(
                    kind == OTHERS.size()
                            ? spoilt(root, key, " left out", map -> map.remove(key.name))
                            : spoilt(
                                    root,
                                    key,
                                    " replaced by " + OTHERS.get(kind),
                                    map -> map.set(key.name, OTHERS.get(kind))));
        }
        return all;
    }

    /** Each key mistyped. */
    static List<Spoilt> everyKey(JsonNode root) {
        return keys(root, JsonPointer.empty()).stream()
                .map(key -> spoilt(root, key, " mistyped", map -> map.set(key.name + "x", map.remove(key.name))))
                .toList();
    }

    private static Spoilt spoilt(JsonNode root, Key key, String how, Consumer<ObjectNode> spoil) {
        JsonNode copy = root.deepCopy();
        spoil.accept((ObjectNode) copy.at(key.map));
        return new Spoilt(copy, key.map + "/" + key.name + how);
    }

    private static List<Key> keys(JsonNode node, JsonPointer at) {
        List<Key> keys = new ArrayList<>();
        for (int i = 0; node.isArray() && i < node.size(); i++) {
            keys.addAll(keys(node.get(i), at.appendIndex(i)));
        }
        node.properties().forEach(field -> {
            keys.add(new Key(at, field.getKey()));
            keys.addAll(keys(field.getValue(), at.appendProperty(field.getKey())));
        });
        return keys;
    }
}
