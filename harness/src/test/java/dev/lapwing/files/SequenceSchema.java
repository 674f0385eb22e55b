package dev.lapwing.files;

import static dev.lapwing.files.SchemaPieces.LEVEL;
import static dev.lapwing.files.SchemaPieces.NAME;
import static dev.lapwing.files.SchemaPieces.VARIABLE;
import static dev.lapwing.files.SchemaPieces.WIRE;
import static dev.lapwing.files.SchemaPieces.file;
import static dev.lapwing.files.SchemaPieces.list;
import static dev.lapwing.files.SchemaPieces.map;
import static dev.lapwing.files.SchemaPieces.name;
import static dev.lapwing.files.SchemaPieces.named;
import static dev.lapwing.files.SchemaPieces.operand;
import static dev.lapwing.files.SchemaPieces.operandText;
import static dev.lapwing.files.SchemaPieces.pattern;
import static dev.lapwing.files.SchemaPieces.ref;
import static dev.lapwing.files.SchemaPieces.shaped;
import static dev.lapwing.files.SchemaPieces.text;
import static dev.lapwing.files.SchemaPieces.words;

import dev.lapwing.naming.Ability;
import dev.lapwing.naming.DesignFlag;
import dev.lapwing.naming.DesignOption;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.sequence.AlwaysProperty;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** The JSON Schemas of sequences and of files of parts, from the models and the shapes that the reader goes by. */
final class SequenceSchema {
    private SequenceSchema() {}

    static Map<String, Object> sequence() {
        return file("A sequence of Lapwing", shaped(Shapes.SEQUENCE, SequenceSchema::top), definitions());
    }

    static Map<String, Object> parts() {
        return file("A file of parts of Lapwing", shaped(Shapes.PARTS, SequenceSchema::top), definitions());
    }

    private static Object top(String key) {
        return switch (key) {
            case "sequence" -> text("what the sequence is called");
            case "purpose" -> text("why it is done, in a sentence or two");
            case "needs" ->
                list(words(Arrays.stream(Ability.values()).map(Ability::text).toList()), 0);
            case "needs-design" -> design(1);
            case "include" -> list(text("a file of parts, relative to this file"), 0);
            case "continues" -> words(List.of("yes", "no"));
            case "prepare", "tidy-up" -> map("type", "array", "items", ref("step"));
            case "start" -> list(ref("wait-until"), 0);
            case "steps" -> ref("steps");
            case "breaks" ->
                list(
                        words(Arrays.stream(AlwaysProperty.values())
                                .map(AlwaysProperty::text)
                                .toList()),
                        0);
            case "parts" -> named(NAME, ref("steps"));
            default -> throw new IllegalArgumentException(key);
        };
    }

    /** Design flags and their options, at least so many. */
    static Map<String, Object> design(int least) {
        Map<String, Object> flags = new LinkedHashMap<>();
        for (DesignFlag flag : DesignFlag.values()) {
            Map<String, Object> options =
                    words(flag.options().stream().map(DesignOption::text).toList());
            options.put("description", flag.question());
            flags.put(flag.text(), options);
        }
        return map("type", "object", "properties", flags, "additionalProperties", false, "minProperties", least);
    }

    private static Map<String, Object> definitions() {
        Map<String, Object> expectations = new LinkedHashMap<>();
        Shapes.EXPECTATIONS.forEach((verb, shape) -> expectations.put(verb, shaped(shape, key -> argument(verb, key))));
        Map<String, Object> one = map("type", "object", "properties", expectations, "additionalProperties", false);
        one.put("minProperties", 1);
        one.put("maxProperties", 1);
        return map(
                "steps",
                list(ref("step"), 1),
                "step",
                step(),
                "stimulus",
                stimulus(),
                "condition",
                condition(Map.of()),
                "wait-until",
                waitUntil(),
                "expectations",
                named(NAME, ref("expectation")),
                "expectation",
                one);
    }

    private static Map<String, Object> step() {
        Map<String, Object> properties = stimuli();
        properties.put("together", list(ref("stimulus"), 1));
        properties.put("wait", operand(Dimension.TIME));
        properties.put("wait-until", ref("wait-until"));
        properties.put("part", name("the name of a part"));
        properties.put("expect", ref("expectations"));
        properties.put("for-each", forEach());
        Map<String, Object> onlyIf = design(1);
        onlyIf.put("maxProperties", 1);
        properties.put("only-if", onlyIf);
        properties.put("meanwhile", ref("expectations"));
        List<Object> oneVerb = new ArrayList<>();
        properties.keySet().forEach(verb -> oneVerb.add(map("required", List.of(verb))));
        List<Object> withDo = new ArrayList<>();
        Map<String, Object> needsDo = new LinkedHashMap<>();
        for (String verb : Shapes.STEPS_WITH_DO) {
            withDo.add(map("required", List.of(verb)));
            needsDo.put(verb, List.of("do"));
        }
        properties.put("do", ref("steps"));
        return map(
                "type",
                "object",
                "properties",
                properties,
                "additionalProperties",
                false,
                "oneOf",
                oneVerb,
                "dependentRequired",
                needsDo,
                "dependentSchemas",
                map("do", map("anyOf", withDo)));
    }

    private static Map<String, Object> stimulus() {
        return map("type", "object", "properties", stimuli(), "additionalProperties", false, "minProperties", 1);
    }

    private static Map<String, Object> stimuli() {
        Map<String, Object> stimuli = new LinkedHashMap<>();
        Shapes.STIMULI.forEach(verb -> stimuli.put(verb, stimulus(verb)));
        return stimuli;
    }

    private static Object stimulus(String verb) {
        return switch (verb) {
            case "handle" ->
                map(
                        "anyOf",
                        List.of(
                                words(Shapes.POSITIONS.required()),
                                shaped(Shapes.HANDLE_OVER, key -> handle(key)),
                                shaped(Shapes.HANDLE_ALONG, key -> handle(key))));
            case "deadman" -> words(List.of("held", "released"));
            case "acknowledgement" -> words(List.of("pressed", "let-go"));
            case "master-switch" -> words(List.of("on", "off"));
            case "reverser" -> words(List.of("forward", "off", "reverse"));
            case "power-handle" -> pattern("off|notch\\s+[1-" + Stimuli.NOTCH_MAX + "]", "'off' or 'notch 3'");
            case "speed" -> operand(Dimension.SPEED);
            case "supply" -> named(SchemaPieces.SUPPLIES, operand(Dimension.NOMINAL_SHARE, Dimension.VOLTAGE));
            case "feed-wire" -> named(NAME, words(List.of("on", "off")));
            case "alarm-valve", "crew-valve" -> shaped(Shapes.VALVE, key -> place(key, "open", "shut"));
            case "hose" -> shaped(Shapes.HOSE, key -> place(key, "burst", "whole"));
            case "cock" -> shaped(Shapes.COCK, key -> place(key, "shut", "open"));
            case "coupling" -> shaped(Shapes.COUPLING, key -> place(key, "parted", "joined"));
            case "other-cab" -> words(List.of("charging", "shut"));
            default -> throw new IllegalArgumentException(verb);
        };
    }

    private static Object handle(String key) {
        return switch (key) {
            case "to" -> words(Shapes.POSITIONS.required());
            case "at" -> operand(Dimension.RATIO);
            case "of" -> name("the name of an arc of the handle");
            case "over" -> operand(Dimension.TIME);
            default -> throw new IllegalArgumentException(key);
        };
    }

    private static Object place(String key, String yes, String no) {
        return switch (key) {
            case "at", "behind" ->
                map(
                        "type",
                        List.of("integer", "string"),
                        "pattern",
                        "^(first|last|[1-9][0-9]?|" + VARIABLE + ")$",
                        "minimum",
                        1,
                        "maximum",
                        99,
                        "description",
                        "a vehicle: 'first', 'last', a number or a loop's variable");
            case "of" -> words(List.of("brake-pipe", "main-reservoir-pipe"));
            case "to" -> words(List.of(yes, no));
            default -> throw new IllegalArgumentException(key);
        };
    }

    private static Map<String, Object> forEach() {
        Object value = map(
                "type",
                List.of("string", "integer"),
                "pattern",
                "^([+-]?\\.?[0-9].*|" + NAME + ")$",
                "minimum",
                1,
                "maximum",
                99,
                "description",
                "a figure with its unit, a vehicle's number, or the name of an acceptance figure");
        Map<String, Object> loop =
                named(NAME, map("anyOf", List.of(list(value, 1), shaped(Shapes.RANGE, key -> value))));
        loop.put("maxProperties", 1);
        return loop;
    }

    /** A condition, beside which some keys of another kind may stand. */
    private static Map<String, Object> condition(Map<String, Object> beside) {
        Map<String, Object> properties = map("any-of", list(ref("condition"), 1), "all-of", list(ref("condition"), 1));
        properties.put("not", ref("condition"));
        Shapes.AHEAD.forEach((verb, shape) -> properties.put(
                verb,
                shaped(
                        shape,
                        key -> key.equals("holds") || key.equals("then")
                                ? ref("condition")
                                : operand(Dimension.TIME))));
        properties.putAll(beside);
        String level = operandText(Dimension.PRESSURE, Dimension.VOLTAGE, Dimension.NOMINAL_SHARE, Dimension.ANGLE);
        return map(
                "type",
                "object",
                "minProperties",
                1 + beside.size(),
                "properties",
                properties,
                "patternProperties",
                map(
                        "^" + LEVEL + "$",
                        pattern("(above|below)\\s+(" + level + ")", "'above' or 'below' and a level"),
                        "^" + WIRE + "$",
                        words(List.of("on", "off"))),
                "additionalProperties",
                false);
    }

    private static Map<String, Object> waitUntil() {
        Map<String, Object> condition = condition(Map.of("at-most", operand(Dimension.TIME)));
        condition.put("required", List.of("at-most"));
        return condition;
    }

    private static Object argument(String verb, String key) {
        if (verb.equals("compares") && !key.equals("limit")) {
            return pattern(
                    NAME + "(@[1-9][0-9]?)?", "the name of an expectation, with '@4' for one of several vehicles");
        }
        return QuantitySchema.argument(verb, key).orElseGet(() -> plain(verb, key));
    }

    private static Object plain(String verb, String key) {
        boolean crossing = verb.equals("rises-above") || verb.equals("falls-below");
        return switch (key) {
            case "signal", "with" -> pattern(LEVEL, "a signal with a level, such as 'brake-pipe at last'");
            case "wire" -> name("the name of a wire");
            case "curve" -> name("the name of a curve of the fixture");
            case "law" -> name("the name of a law of the fixture");
            case "remember", "remembered" -> text("what to remember the level as");
            case "condition", "first", "then" -> ref("condition");
            case "after", "over", "longer-than", "from" -> operand(Dimension.TIME);
            case "to" -> verb.equals("switches") ? words(List.of("on", "off")) : operand(Dimension.TIME);
            case "within" -> verb.equals("comes-before") ? operand(Dimension.TIME) : limit();
            case "level" -> crossing ? level() : limit();
            default -> limit();
        };
    }

    static Object level() {
        return operand(Dimension.PRESSURE, Dimension.VOLTAGE, Dimension.NOMINAL_SHARE, Dimension.ANGLE);
    }

    private static Object limit() {
        return pattern(NAME + "|" + VARIABLE, "the name of an acceptance figure with a limit");
    }
}
