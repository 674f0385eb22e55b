package dev.lapwing.files;

import static dev.lapwing.files.SchemaPieces.NAME;
import static dev.lapwing.files.SchemaPieces.figure;
import static dev.lapwing.files.SchemaPieces.file;
import static dev.lapwing.files.SchemaPieces.list;
import static dev.lapwing.files.SchemaPieces.map;
import static dev.lapwing.files.SchemaPieces.name;
import static dev.lapwing.files.SchemaPieces.named;
import static dev.lapwing.files.SchemaPieces.pattern;
import static dev.lapwing.files.SchemaPieces.ref;
import static dev.lapwing.files.SchemaPieces.shaped;
import static dev.lapwing.files.SchemaPieces.text;
import static dev.lapwing.files.SchemaPieces.whole;

import dev.lapwing.bench.LinkChoice;
import dev.lapwing.bench.LinkChoice.Parity;
import dev.lapwing.bench.PointKind;
import dev.lapwing.bench.Register;
import dev.lapwing.naming.SwitchKind;
import dev.lapwing.quantity.Dimension;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** The JSON Schema of bench files. */
final class BenchSchema {
    private static final String POINT = "[A-Za-z0-9-]{1,32}";
    /** Signals that have a level. */
    private static final String LEVELS = "(" + SchemaPieces.PRESSURES + "@[1-9][0-9]?|supply\\/" + SchemaPieces.SUPPLIES
            + "|handle-angle)(\\/twin)?";

    private BenchSchema() {}

    static Map<String, Object> bench() {
        return file(
                "A bench of Lapwing",
                shaped(Shapes.BENCH, BenchSchema::top),
                map("point", point(), "point-name", pattern(POINT, "the name of a point")));
    }

    private static Object top(String key) {
        return switch (key) {
            case "bench" -> text("what the bench is called");
            case "link" -> {
                Map<String, Object> link = shaped(Shapes.LINK, BenchSchema::link);
                link.put("minProperties", 1);
                link.put("maxProperties", 1);
                yield link;
            }
            case "clock" -> figure(Dimension.CLOCK_RATE);
            case "points" -> named(POINT, ref("point"));
            case "calibrations" -> named(NAME, shaped(Shapes.CALIBRATION, BenchSchema::calibration));
            case "inputs" -> inputs();
            case "limits" -> limits();
            case "outputs" -> outputs();
            case "streams" -> {
                Map<String, Object> streams = named(POINT, shaped(Shapes.STREAM, BenchSchema::stream));
                streams.put("maxProperties", StreamReader.STREAMS_MAX);
                yield streams;
            }
            default -> throw new IllegalArgumentException(key);
        };
    }

    private static Object link(String key) {
        return switch (key) {
            case "serial" -> shaped(Shapes.SERIAL, BenchSchema::serial);
            case "mqtt" -> shaped(Shapes.MQTT, BenchSchema::mqtt);
            case "modbus" -> shaped(Shapes.MODBUS, BenchSchema::modbus);
            default -> shaped(Shapes.SIMULATED, BenchSchema::simulated);
        };
    }

    private static Object mqtt(String key) {
        return switch (key) {
            case "broker" -> pattern(LinkChoice.BROKER, "a broker's URL such as 'tcp://bench-broker:1883'");
            case "name" -> pattern(POINT, "the bench's name on the broker");
            case "credentials" -> text("a file with user name and password, named from where this file is");
            case "authority" -> text("a file with certificates in PEM, named from where this file is");
            case "beat" -> figure(Dimension.TIME);
            default -> figure(Dimension.COUNT);
        };
    }

    private static Object modbus(String key) {
        return switch (key) {
            case "device" -> text("a serial device such as '/dev/ttyUSB0'");
            case "baud" -> whole(LinkChoice.BAUD_MIN, LinkChoice.BAUD_MAX, "a baud rate such as 19200");
            case "parity" ->
                map("enum", Arrays.stream(Parity.values()).map(Parity::text).toList());
            default -> figure(Dimension.TIME);
        };
    }

    private static Object serial(String key) {
        return switch (key) {
            case "device" -> text("a serial device such as '/dev/ttyACM0'");
            case "baud" -> whole(LinkChoice.BAUD_MIN, LinkChoice.BAUD_MAX, "a baud rate such as 921600");
            case "beat" -> figure(Dimension.TIME);
            default -> figure(Dimension.COUNT);
        };
    }

    private static Object simulated(String key) {
        return switch (key) {
            case "step", "command-delay" -> figure(Dimension.TIME);
            case "transducer-error", "span-error", "transducer-noise" -> figure(Dimension.RATIO);
            default -> figure(Dimension.CLOCK_RATE);
        };
    }

    private static Map<String, Object> point() {
        List<Object> kinds = new ArrayList<>();
        for (PointKind kind : PointKind.values()) {
            kinds.add(shaped(PointReader.shape(kind), key -> switch (key) {
                case "kind" -> map("const", kind.text());
                case "min", "max", "safe" -> figure(Dimension.CONVERTER_COUNT);
                case "filter", "stamp", "glitch", "operate", "release", "spread" -> figure(Dimension.TIME);
                case "module" -> whole(1, Register.MODULE_MAX, "the address of a Modbus module");
                default -> whole(0, Register.ADDRESS_MAX, "the address in the module, as sent in requests");
            }));
        }
        return map("type", "object", "required", List.of("kind"), "oneOf", kinds);
    }

    private static Object calibration(String key) {
        return switch (key) {
            case "points" -> list(pair(figure(Dimension.CONVERTER_COUNT), figure(Dimension.values())), 2);
            case "date", "due" -> pattern("[0-9]{4}-[0-9]{2}-[0-9]{2}", "a date such as '2026-10-01'");
            case "certificate" -> text("the certificate or reference that it rests on");
            case "operator" -> text("the name of who calibrated");
            default -> figure(Dimension.values());
        };
    }

    private static Map<String, Object> pair(Object left, Object right) {
        return map("type", "array", "prefixItems", List.of(left, right), "minItems", 2, "maxItems", 2);
    }

    private static Map<String, Object> inputs() {
        Map<String, Object> level = shaped(Shapes.INPUT, BenchSchema::input);
        level.put("required", List.of("point", "calibration"));
        level.put("dependentRequired", map("tube", List.of("tube-within"), "tube-within", List.of("tube")));
        return map(
                "type",
                "object",
                "minProperties",
                1,
                "patternProperties",
                map("^(" + LEVELS + ")$", level, "^wire\\/" + NAME + "$", pointAlone()),
                "additionalProperties",
                false);
    }

    private static Map<String, Object> pointAlone() {
        return map(
                "type",
                "object",
                "properties",
                map("point", ref("point-name")),
                "required",
                List.of("point"),
                "additionalProperties",
                false);
    }

    private static Map<String, Object> limits() {
        Map<String, Object> limit = shaped(Shapes.LIMIT, key -> figure(Dimension.values()));
        limit.put("minProperties", 1);
        return named("(" + LEVELS + ")", limit);
    }

    private static Object input(String key) {
        return switch (key) {
            case "point" -> ref("point-name");
            case "tube", "tube-within" -> figure(Dimension.TIME);
            default -> name("the name of a calibration");
        };
    }

    private static Map<String, Object> outputs() {
        Map<String, Object> patterns = new LinkedHashMap<>();
        for (SwitchKind kind : SwitchKind.values()) {
            String of = SwitchPlaces.pattern(kind);
            patterns.put("^" + kind.text() + (of.isEmpty() ? "" : "\\/(" + of + ")") + "$", pointAlone());
        }
        patterns.put("^supply\\/" + SchemaPieces.SUPPLIES + "$", level(Dimension.VOLTAGE, true));
        return map(
                "type",
                "object",
                "minProperties",
                1,
                "properties",
                map(
                        "handle",
                        level(Dimension.ANGLE, true),
                        "power-handle",
                        level(Dimension.COUNT, false),
                        "speed",
                        level(Dimension.SPEED, true)),
                "patternProperties",
                patterns,
                "additionalProperties",
                false);
    }

    private static Map<String, Object> level(Dimension dimension, boolean scaled) {
        Map<String, Object> scale = list(pair(figure(dimension), figure(Dimension.CONVERTER_COUNT)), 2);
        scale.put("maxItems", 2);
        Map<String, Object> level = shaped(Shapes.OUTPUT, key -> key.equals("point") ? ref("point-name") : scale);
        level.put("required", scaled ? List.of("point", "scale") : List.of("point"));
        return level;
    }

    private static Object stream(String key) {
        return key.equals("every") ? figure(Dimension.TIME) : list(ref("point-name"), 1);
    }
}
