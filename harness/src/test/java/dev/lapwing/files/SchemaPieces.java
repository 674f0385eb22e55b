package dev.lapwing.files;

import dev.lapwing.naming.PressureKind;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.Unit;
import java.util.Arrays;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** What the JSON Schemas of all kinds of file are made of. */
final class SchemaPieces {
    static final String NAME = "[a-z][a-z0-9]*(-[a-z0-9]+)*";
    static final String VARIABLE = "<" + NAME + ">";
    static final String PRESSURES = either(Arrays.stream(PressureKind.values()).map(PressureKind::text));
    static final String SUPPLIES = either(Signals.SUPPLIES.stream());

    private static final String NUMBER = "[+-]?([0-9]+(\\.[0-9]+)?|\\.[0-9]+)([eE][+-]?[0-9]+)?";
    private static final String VEHICLE = "(first|last|every|[1-9][0-9]?|" + VARIABLE + ")";
    static final String LEVEL = "(" + PRESSURES + "\\s+at\\s+" + VEHICLE + "|supply\\s+" + SUPPLIES + "|handle-angle)";
    static final String WIRE = "wire\\s+" + NAME;

    private SchemaPieces() {}

    static Map<String, Object> map(Object... keysAndValues) {
        Map<String, Object> map = new LinkedHashMap<>();
        for (int i = 0; i < keysAndValues.length; i += 2) {
            map.put((String) keysAndValues[i], keysAndValues[i + 1]);
        }
        return map;
    }

    /** A whole schema file, with a definition of every kind of figure that it refers to. */
    static Map<String, Object> file(String title, Map<String, Object> content, Map<String, Object> definitions) {
        Map<String, Object> file = map("$schema", "https://json-schema.org/draft/2020-12/schema", "title", title);
        file.putAll(content);
        Map<String, Object> all = new LinkedHashMap<>(definitions);
        figureDefinitions(List.of(content, definitions)).forEach((name, pattern) -> all.put(name, pattern));
        file.put("$defs", all);
        return file;
    }

    private static Map<String, Object> figureDefinitions(Object piece) {
        Map<String, Object> found = new TreeMap<>();
        if (piece instanceof Map<?, ?> map) {
            if (map.get("$ref") instanceof String ref && ref.matches("#/\\$defs/(figure|operand|spread)-.*")) {
                String name = ref.substring("#/$defs/".length());
                found.put(name, definition(name));
            }
            map.values().forEach(value -> found.putAll(figureDefinitions(value)));
        } else if (piece instanceof List<?> list) {
            list.forEach(item -> found.putAll(figureDefinitions(item)));
        }
        return found;
    }

    /** {@code operand-time}: which way it is written, and of which kinds of figure. */
    private static Map<String, Object> definition(String name) {
        String kinds = name.substring(name.indexOf('-') + 1);
        Dimension[] dimensions = kinds.equals("any")
                ? Dimension.values()
                : Stream.of(kinds.split("-or-"))
                        .map(kind -> Dimension.valueOf(kind.replace('-', '_').toUpperCase(Locale.ROOT)))
                        .toArray(Dimension[]::new);
        String figure = figureText(dimensions);
        String examples = kinds.equals("any") ? "a figure with its unit" : Figures.examples(dimensions);
        return switch (name.substring(0, name.indexOf('-'))) {
            case "figure" -> pattern(figure, examples);
            case "operand" ->
                pattern(figure + "|" + NAME + "|" + VARIABLE, examples + ", or the name of an acceptance figure");
            default ->
                pattern(
                        figure + "(\\s*(±|\\+\\/?-)\\s*" + figureText(dimensions[0], Dimension.RATIO) + ")?",
                        examples + ", with its tolerance after ±");
        };
    }

    private static Map<String, Object> figureRef(String way, Dimension... dimensions) {
        String kinds = dimensions.length == Dimension.values().length
                ? "any"
                : Stream.of(dimensions)
                        .map(kind -> kind.name().toLowerCase(Locale.ROOT).replace('_', '-'))
                        .collect(Collectors.joining("-or-"));
        return ref(way + "-" + kinds);
    }

    static Map<String, Object> ref(String definition) {
        return map("$ref", "#/$defs/" + definition);
    }

    /** A map with the keys of a shape; each value as {@code value} says. */
    static Map<String, Object> shaped(Shape shape, Function<String, Object> value) {
        Map<String, Object> properties = new LinkedHashMap<>();
        shape.keys().forEach(key -> properties.put(key, value.apply(key)));
        Map<String, Object> object = map("type", "object", "properties", properties, "additionalProperties", false);
        if (!shape.required().isEmpty()) {
            object.put("required", shape.required());
        }
        return object;
    }

    /** A map with free keys of that pattern. */
    static Map<String, Object> named(String keyPattern, Object value) {
        return map(
                "type",
                "object",
                "minProperties",
                1,
                "patternProperties",
                map("^" + keyPattern + "$", value),
                "additionalProperties",
                false);
    }

    static Map<String, Object> list(Object item, int least) {
        return map("type", "array", "minItems", least, "items", item);
    }

    static Map<String, Object> words(Collection<String> words) {
        return map("enum", List.copyOf(words));
    }

    static Map<String, Object> pattern(String regex, String description) {
        return map("type", "string", "pattern", "^(" + regex + ")$", "description", description);
    }

    /** Any text, for people. */
    static Map<String, Object> text(String description) {
        return map("type", List.of("string", "number", "boolean"), "pattern", "\\S", "description", description);
    }

    static Map<String, Object> name(String description) {
        return pattern(NAME, description);
    }

    static Map<String, Object> whole(int least, int most, String description) {
        return map(
                "type",
                List.of("integer", "string"),
                "pattern",
                "^[0-9]{1,8}$",
                "minimum",
                least,
                "maximum",
                most,
                "description",
                description);
    }

    /** A figure with one of the units of those kinds. */
    static Map<String, Object> figure(Dimension... dimensions) {
        return figureRef("figure", dimensions);
    }

    /** As {@link #figure}, or the name of an acceptance figure, or a variable. */
    static Map<String, Object> operand(Dimension... dimensions) {
        return figureRef("operand", dimensions);
    }

    /** As {@link #figure}, with a tolerance. */
    static Map<String, Object> spread(Dimension dimension) {
        return figureRef("spread", dimension);
    }

    static String operandText(Dimension... dimensions) {
        return figureText(dimensions) + "|" + NAME + "|" + VARIABLE;
    }

    static String figureText(Dimension... dimensions) {
        String units = either(Stream.of(dimensions)
                .flatMap(dimension -> Unit.of(dimension).stream())
                .flatMap(unit -> unit.spellings().stream())
                .map(SchemaPieces::literal));
        return NUMBER + "\\s*" + units;
    }

    static String either(Stream<String> words) {
        return words.collect(Collectors.joining("|", "(", ")"));
    }

    private static String literal(String spelling) {
        return spelling.replaceAll("[.()/]", "\\\\$0").replace(" ", "\\s+");
    }
}
