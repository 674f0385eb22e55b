package dev.lapwing.link;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonFactoryBuilder;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.core.TSFBuilder;
import com.fasterxml.jackson.dataformat.cbor.CBORFactory;
import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * The members of one message, from JSON or CBOR, each asked for by name and kind. Memory is a multiple of the input.
 */
final class Members {
    /** Deeper nesting is no message of this link; the contract says so. */
    private static final int DEPTH_MAX = 8;

    private static final JsonFactory JSON = bounded(new JsonFactoryBuilder()).build();
    private static final CBORFactory CBOR = bounded(CBORFactory.builder()).build();

    /** Stands for a null. */
    static final Object NULL = new Object();

    /** What is there but can be nothing that this link uses: a fraction, a number beyond 64 bits. */
    private static final Object OTHER = new Object();

    private final Map<String, Object> values;

    private Members(Map<String, Object> values) {
        this.values = values;
    }

    /** @throws UnreadableMessage if the bytes are not one JSON object in UTF-8 */
    static Members ofJson(byte[] text) throws UnreadableMessage {
        if (!beginsAsObject(text)) {
            throw new UnreadableMessage("no JSON object");
        }
        try (JsonParser parser = JSON.createParser(text)) {
            return read(parser);
        } catch (IOException e) {
            throw new UnreadableMessage("no JSON object");
        }
    }

    /** @throws UnreadableMessage if the bytes are not one CBOR map */
    static Members ofCbor(byte[] map) throws UnreadableMessage {
        try (JsonParser parser = CBOR.createParser(map)) {
            return read(parser);
        } catch (IOException e) {
            throw new UnreadableMessage("no CBOR map");
        }
    }

    boolean has(String name) {
        return values.containsKey(name);
    }

    String text(String name) throws UnreadableMessage {
        if (values.get(name) instanceof String text) {
            return text;
        }
        throw wrong(name, "text");
    }

    /** {@code otherwise} where there is none, or something else. */
    String textOr(String name, String otherwise) {
        return values.get(name) instanceof String text ? text : otherwise;
    }

    String token(String name) throws UnreadableMessage {
        String text = text(name);
        if (Wire.isToken(text)) {
            return text;
        }
        throw wrong(name, "eight hex digits");
    }

    String name(String name) throws UnreadableMessage {
        String text = text(name);
        if (Wire.isName(text)) {
            return text;
        }
        throw wrong(name, "a name");
    }

    long number(String name, long min, long max) throws UnreadableMessage {
        if (values.get(name) instanceof Long number && number >= min && number <= max) {
            return number;
        }
        throw wrong(name, "an integer from " + min + " to " + max);
    }

    long numberOr(String name, long otherwise, long min, long max) throws UnreadableMessage {
        return has(name) ? number(name, min, max) : otherwise;
    }

    /** A time, a rate or the number of a message. */
    long large(String name) throws UnreadableMessage {
        return number(name, 0, Wire.NUMBER_MAX);
    }

    int small(String name, int min) throws UnreadableMessage {
        return (int) number(name, min, Integer.MAX_VALUE);
    }

    /** {@code otherwise} where there is no such number. */
    int smallOr(String name, int otherwise) {
        boolean small = values.get(name) instanceof Long number && number >= 0 && number <= Integer.MAX_VALUE;
        return small ? ((Long) values.get(name)).intValue() : otherwise;
    }

    boolean flag(String name) throws UnreadableMessage {
        if (values.get(name) instanceof Boolean flag) {
            return flag;
        }
        throw wrong(name, "true or false");
    }

    List<String> names(String name) throws UnreadableMessage {
        List<String> names = texts(name);
        if (!names.stream().allMatch(Wire::isName)) {
            throw wrong(name, "a list of names");
        }
        return names;
    }

    List<String> texts(String name) throws UnreadableMessage {
        List<String> texts = new ArrayList<>();
        for (Object one : list(name)) {
            if (!(one instanceof String text)) {
                throw wrong(name, "a list of texts");
            }
            texts.add(text);
        }
        return texts;
    }

    List<Members> objects(String name) throws UnreadableMessage {
        List<Members> objects = new ArrayList<>();
        for (Object one : list(name)) {
            if (!(one instanceof Members object)) {
                throw wrong(name, "a list of objects");
            }
            objects.add(object);
        }
        return objects;
    }

    Members object(String name) throws UnreadableMessage {
        if (values.get(name) instanceof Members object) {
            return object;
        }
        throw wrong(name, "an object");
    }

    Iterable<String> memberNames() {
        return values.keySet();
    }

    /** A list as it came: each element a {@code Long}, a {@code String}, a {@code Boolean} or what it can not be. */
    List<?> list(String name) throws UnreadableMessage {
        if (values.get(name) instanceof List<?> list) {
            return list;
        }
        throw wrong(name, "a list");
    }

    byte[] bytes(String name) throws UnreadableMessage {
        if (values.get(name) instanceof byte[] bytes) {
            return bytes;
        }
        throw wrong(name, "a byte string");
    }

    /** Rows of integers, each {@code width} long, one behind the other. */
    int[] rows(String name, int width) throws UnreadableMessage {
        if (values.get(name) instanceof IntRows rows && rows.isTable(width)) {
            return rows.counts();
        }
        throw wrong(name, "a list of samples of " + width + " integers");
    }

    UnreadableMessage wrong(String name, String expected) {
        return new UnreadableMessage("'" + name + "' must be " + expected);
    }

    /** The parser would else take UTF-16 and byte order marks, which the link does not know. */
    private static boolean beginsAsObject(byte[] text) {
        int at = 0;
        while (at < text.length && (text[at] == ' ' || text[at] == '\t' || text[at] == '\n' || text[at] == '\r')) {
            at++;
        }
        return at < text.length && text[at] == '{' && (at + 1 == text.length || text[at + 1] != 0);
    }

    private static Members read(JsonParser parser) throws IOException {
        if (parser.nextToken() != JsonToken.START_OBJECT) {
            throw new UnreadableMessage("no object");
        }
        Members members = object(parser);
        if (parser.nextToken() != null) {
            throw new UnreadableMessage("more than one object");
        }
        return members;
    }

    private static Members object(JsonParser parser) throws IOException {
        Map<String, Object> values = new LinkedHashMap<>();
        while (parser.nextToken() == JsonToken.FIELD_NAME) {
            String name = parser.currentName();
            JsonToken token = parser.nextToken();
            boolean counts = token == JsonToken.START_ARRAY && name.equals("v");
            values.put(name, counts ? IntRows.read(parser) : value(parser, token));
        }
        if (parser.currentToken() != JsonToken.END_OBJECT) {
            throw new UnreadableMessage("an object without end");
        }
        return new Members(values);
    }

    private static Object value(JsonParser parser, JsonToken token) throws IOException {
        if (token == null) {
            throw new UnreadableMessage("a member without value");
        }
        return switch (token) {
            case START_OBJECT -> object(parser);
            case START_ARRAY -> list(parser);
            case VALUE_STRING -> parser.getText();
            case VALUE_TRUE -> true;
            case VALUE_FALSE -> false;
            case VALUE_NUMBER_INT ->
                parser.getNumberType() == JsonParser.NumberType.BIG_INTEGER ? OTHER : (Object) parser.getLongValue();
            case VALUE_NULL -> NULL;
            case VALUE_EMBEDDED_OBJECT -> parser.getBinaryValue();
            default -> OTHER;
        };
    }

    private static List<Object> list(JsonParser parser) throws IOException {
        List<Object> list = new ArrayList<>();
        for (JsonToken token = parser.nextToken(); token != JsonToken.END_ARRAY; token = parser.nextToken()) {
            list.add(value(parser, token));
        }
        return list;
    }

    /** Names are not interned: that memory a stranger could fill for good. */
    private static <B extends TSFBuilder<?, B>> B bounded(B builder) {
        return builder.disable(JsonFactory.Feature.INTERN_FIELD_NAMES)
                .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
                .streamReadConstraints(StreamReadConstraints.builder()
                        .maxNestingDepth(DEPTH_MAX)
                        .maxNumberLength(Wire.BENCH_BYTES_MAX)
                        .maxStringLength(Wire.BENCH_BYTES_MAX)
                        .maxNameLength(Wire.BENCH_BYTES_MAX)
                        .build());
    }
}
