package dev.lapwing.files;

import com.fasterxml.jackson.core.JsonLocation;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.dataformat.yaml.YAMLFactory;
import com.fasterxml.jackson.dataformat.yaml.YAMLParser;
import dev.lapwing.files.Node.Entry;
import dev.lapwing.source.Mistakes;
import dev.lapwing.source.Place;
import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.yaml.snakeyaml.LoaderOptions;

/**
 * Turns YAML into a tree in one pass over its tokens, so that each piece keeps its place. Refused, each with its place:
 * keys that stand twice, anchors and aliases, tags, a second document.
 */
final class YamlTree {
    private static final int DEPTH_MAX = 40;

    private final String file;
    private final YAMLParser parser;
    private final Mistakes mistakes;

    private YamlTree(String file, YAMLParser parser, Mistakes mistakes) {
        this.file = file;
        this.parser = parser;
        this.mistakes = mistakes;
    }

    /** The tree of a whole file; empty, with a mistake, if there is none. */
    static Optional<Node> of(String file, String text, Mistakes mistakes) {
        LoaderOptions options = new LoaderOptions();
        options.setCodePointLimit(TextFile.BYTES_MAX);
        try (YAMLParser parser =
                YAMLFactory.builder().loaderOptions(options).build().createParser(text)) {
            return new YamlTree(file, parser, mistakes).document();
        } catch (JsonProcessingException e) {
            YamlProblem.report(file, text, e, mistakes);
        } catch (TooDeep e) {
            mistakes.add(e.place, "this is nested more than " + DEPTH_MAX + " deep", "", "");
        } catch (IOException e) {
            mistakes.add(new Place(file, 1, 1), "the file cannot be read as YAML", "", "");
        }
        return Optional.empty();
    }

    private Optional<Node> document() throws IOException, TooDeep {
        if (parser.nextToken() == null) {
            mistakes.add(new Place(file, 1, 1), "the file is empty", "a sequence, parts, a fixture or a bench", "");
            return Optional.empty();
        }
        Node root = node(0);
        if (parser.nextToken() != null) {
            mistakes.add(here(), "a second document begins here", "one document in a file", "");
        }
        return Optional.of(root);
    }

    private Node node(int depth) throws IOException, TooDeep {
        Place place = here();
        if (depth > DEPTH_MAX) {
            throw new TooDeep(place);
        }
        if (parser.isCurrentAlias()) {
            mistakes.add(place, "an alias ('*" + Quoted.cut(parser.getText()) + "')", "the value itself", "");
            return new Node.Refused(place);
        }
        if (parser.getObjectId() != null) {
            mistakes.add(
                    place, "an anchor ('&" + Quoted.cut(parser.getObjectId().toString()) + "')", "no anchor", "");
        }
        if (parser.getTypeId() != null) {
            mistakes.add(place, "a tag ('!" + Quoted.cut(parser.getTypeId().toString()) + "')", "no tag", "");
        }
        JsonToken token = parser.currentToken();
        if (token == JsonToken.START_OBJECT) {
            return entries(place, depth);
        }
        return token == JsonToken.START_ARRAY ? items(place, depth) : scalar(place, token);
    }

    private Node scalar(Place place, JsonToken token) throws IOException {
        String text = parser.getText();
        boolean nothing = token == JsonToken.VALUE_NULL && (text == null || text.equals("~") || text.equals("null"));
        return new Node.Scalar(nothing || text == null ? "" : text, place);
    }

    private Node items(Place place, int depth) throws IOException, TooDeep {
        List<Node> nodes = new ArrayList<>();
        while (parser.nextToken() != JsonToken.END_ARRAY) {
            nodes.add(node(depth + 1));
        }
        return new Node.Items(nodes, place);
    }

    private Node entries(Place place, int depth) throws IOException, TooDeep {
        Map<String, Entry> entries = new LinkedHashMap<>();
        while (parser.nextToken() != JsonToken.END_OBJECT) {
            Place keyPlace = here();
            String key = parser.currentName() == null ? "" : parser.currentName();
            parser.nextToken();
            Entry entry = new Entry(key, keyPlace, node(depth + 1));
            Entry first = entries.putIfAbsent(key, entry);
            if (first != null) {
                mistakes.add(
                        keyPlace,
                        "key " + Quoted.of(key) + " stands twice",
                        "",
                        "it stands first in line " + first.place().line());
            }
        }
        return new Node.Entries(List.copyOf(entries.values()), place);
    }

    private Place here() {
        JsonLocation at = parser.currentTokenLocation();
        return new Place(file, Math.max(1, at.getLineNr()), Math.max(1, at.getColumnNr()));
    }

    /** Ends the pass: whatever nests that deep is none of ours. */
    private static final class TooDeep extends Exception {
        private static final long serialVersionUID = 1;
        private final transient Place place;

        TooDeep(Place place) {
            super("too deep", null, false, false);
            this.place = place;
        }
    }
}
