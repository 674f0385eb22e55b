package dev.lapwing.files;

import static dev.lapwing.files.SchemaPieces.NAME;
import static dev.lapwing.files.SchemaPieces.figure;
import static dev.lapwing.files.SchemaPieces.file;
import static dev.lapwing.files.SchemaPieces.list;
import static dev.lapwing.files.SchemaPieces.map;
import static dev.lapwing.files.SchemaPieces.name;
import static dev.lapwing.files.SchemaPieces.named;
import static dev.lapwing.files.SchemaPieces.ref;
import static dev.lapwing.files.SchemaPieces.shaped;
import static dev.lapwing.files.SchemaPieces.text;
import static dev.lapwing.files.SchemaPieces.whole;
import static dev.lapwing.files.SchemaPieces.words;

import dev.lapwing.fixture.Simulation.ControllerKind;
import dev.lapwing.fixture.Simulation.WireFault;
import dev.lapwing.fixture.SimulationFigure;
import dev.lapwing.naming.Ability;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.uncertainty.DecisionRule;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Stream;

/** The JSON Schema of fixtures: a whole one states all that is due, one based on another states what it changes. */
final class FixtureSchema {
    private final boolean whole;

    private FixtureSchema(boolean whole) {
        this.whole = whole;
    }

    static Map<String, Object> fixture() {
        Map<String, Object> content = map(
                "type",
                "object",
                "if",
                map("required", List.of("based-on")),
                "then",
                ref("changes"),
                "else",
                ref("whole"));
        return file(
                "A fixture of Lapwing",
                content,
                map("whole", new FixtureSchema(true).top(), "changes", new FixtureSchema(false).top()));
    }

    private Map<String, Object> top() {
        Map<String, Object> top = block(Shapes.FIXTURE, key -> switch (key) {
            case "fixture" -> text("what the unit is called");
            case "based-on" -> text("the fixture that this one is based on, relative to this file");
            case "wiring" -> block(Shapes.WIRING, this::wiring);
            case "acceptance" -> block(Shapes.ACCEPTANCE, this::acceptance);
            case "simulation" -> simulation();
            default -> throw new IllegalArgumentException(key);
        });
        top.put("required", whole ? Shapes.FIXTURE.required() : List.of("fixture"));
        return top;
    }

    /** A map of which a fixture based on another states only some keys. */
    private Map<String, Object> block(Shape shape, Function<String, Object> value) {
        return shaped(whole ? shape : new Shape(shape.name(), List.of(), shape.keys()), value);
    }

    private Object wiring(String key) {
        return switch (key) {
            case "vehicles" -> whole(1, WiringReader.VEHICLES_MAX, "vehicles of the train");
            case "nominal-supply" -> figure(Dimension.VOLTAGE);
            case "handle" ->
                block(
                        Shapes.HANDLE,
                        part -> part.equals("positions")
                                ? block(Shapes.POSITIONS, position -> figure(Dimension.ANGLE))
                                : named(NAME, block(Shapes.ARC, end -> words(Shapes.POSITIONS.required()))));
            case "power-notches" -> whole(0, Stimuli.NOTCH_MAX, "greatest notch of the power handle");
            case "wires" -> list(name("the name of a wire"), 1);
            case "abilities" ->
                list(words(Arrays.stream(Ability.values()).map(Ability::text).toList()), 0);
            case "design" -> {
                Map<String, Object> design = SequenceSchema.design(1);
                if (whole) {
                    design.put("required", Shapes.DESIGN.required());
                }
                yield design;
            }
            default -> throw new IllegalArgumentException(key);
        };
    }

    private Object acceptance(String key) {
        return switch (key) {
            case "issue" -> text("number and issue of the acceptance document");
            case "approved-by" -> text("who approved the figures");
            case "figures" -> named(NAME, acceptanceFigure());
            case "curves" -> named(NAME, block(Shapes.CURVE, part -> part.equals("source") ? source() : curve()));
            case "laws" ->
                named(NAME, block(Shapes.LAW, part -> switch (part) {
                    case "arc" -> name("the name of an arc of the handle");
                    case "points" ->
                        list(
                                map(
                                        "type",
                                        "array",
                                        "prefixItems",
                                        List.of(figure(Dimension.RATIO), figure(Dimension.PRESSURE)),
                                        "minItems",
                                        2,
                                        "maxItems",
                                        2),
                                2);
                    default -> source();
                }));
            default -> throw new IllegalArgumentException(key);
        };
    }

    private static Object curve() {
        Map<String, Object> pair = map(
                "type",
                "array",
                "prefixItems",
                List.of(figure(Dimension.TIME), figure(Dimension.PRESSURE)),
                "minItems",
                2,
                "maxItems",
                2);
        return list(pair, 2);
    }

    private Map<String, Object> acceptanceFigure() {
        Dimension[] any = Dimension.values();
        Map<String, Object> figure = block(Shapes.FIGURE, key -> switch (key) {
            case "between" -> map("type", "array", "minItems", 2, "maxItems", 2, "items", figure(any));
            case "source" -> source();
            case "risk" -> figure(Dimension.RATIO);
            case "rule" ->
                words(Stream.of(DecisionRule.GUARDED, DecisionRule.SIMPLE)
                        .map(DecisionRule::text)
                        .toList());
            default -> figure(any);
        });
        List<Map<String, List<String>>> kinds = Shapes.FIGURE_KINDS.stream()
                .map(kind -> Map.of("required", List.of(kind)))
                .toList();
        if (whole) {
            figure.put("oneOf", kinds);
        } else {
            figure.put("anyOf", List.of(map("oneOf", kinds), map("not", map("anyOf", kinds))));
        }
        return figure;
    }

    private static Object source() {
        return text("standard and clause, drawing, or 'common practice, no source'");
    }

    private Map<String, Object> simulation() {
        return block(Shapes.SIMULATION, key -> switch (key) {
            case "controller" ->
                words(Arrays.stream(ControllerKind.values())
                        .map(ControllerKind::text)
                        .toList());
            case "wire-faults" -> list(shaped(Shapes.WIRE_FAULT, FixtureSchema::wireFault), 0);
            default -> block(SimulationReader.shape(key, Optional.empty()), part -> spread(key + "." + part));
        });
    }

    private static Object spread(String path) {
        SimulationFigure figure = SimulationFigure.at(path).orElseThrow();
        Map<String, Object> spread = SchemaPieces.spread(figure.dimension());
        spread.put("description", figure.description());
        return spread;
    }

    private static Object wireFault(String key) {
        return switch (key) {
            case "wire", "with" -> name("the name of a wire");
            case "behind" -> whole(1, WiringReader.VEHICLES_MAX, "the vehicle ahead of the coupling");
            case "fault" ->
                words(Arrays.stream(WireFault.Kind.values())
                        .map(WireFault.Kind::text)
                        .toList());
            case "ohms" -> figure(Dimension.RESISTANCE);
            default -> throw new IllegalArgumentException(key);
        };
    }
}
