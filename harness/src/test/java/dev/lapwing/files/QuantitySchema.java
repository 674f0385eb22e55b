package dev.lapwing.files;

import static dev.lapwing.files.SchemaPieces.operand;
import static dev.lapwing.files.SchemaPieces.text;
import static dev.lapwing.files.SchemaPieces.words;

import dev.lapwing.quantity.Dimension;
import java.util.List;
import java.util.Optional;

/** What the keys of expectations of defined quantities hold, where they hold something of their own. */
final class QuantitySchema {
    private QuantitySchema() {}

    static Optional<Object> argument(String verb, String key) {
        Object argument = switch (verb) {
            case "responds" -> response(key);
            case "graduates" -> staircase(key);
            case "travels" -> travel(key);
            case "rises-at", "falls-at" -> key.equals("width") ? operand(Dimension.TIME) : null;
            case "lasts" -> key.equals("within") ? operand(Dimension.TIME) : null;
            case "recovers" -> key.equals("band") ? SequenceSchema.level() : null;
            default -> null;
        };
        return Optional.ofNullable(argument);
    }

    private static Object response(String key) {
        return switch (key) {
            case "term" -> words(List.copyOf(Quantities.RESPONSE_TERMS.keySet()));
            case "share", "band" -> operand(Dimension.RATIO);
            case "first", "last" -> SequenceSchema.level();
            case "states" -> words(List.copyOf(Quantities.STATES.keySet()));
            default -> null;
        };
    }

    private static Object staircase(String key) {
        return switch (key) {
            case "term" -> words(List.copyOf(Quantities.STAIRCASE_TERMS.keySet()));
            case "levels", "with" -> text("what the names of remembered levels begin with");
            case "answer" -> operand(Dimension.PRESSURE);
            default -> null;
        };
    }

    private static Object travel(String key) {
        return switch (key) {
            case "pressure" -> words(List.copyOf(Signals.PRESSURES.keySet()));
            case "direction" -> words(List.copyOf(Quantities.DIRECTIONS.keySet()));
            case "spacing", "spacing-within" -> operand(Dimension.LENGTH);
            case "within" -> operand(Dimension.TIME);
            default -> null;
        };
    }
}
