package dev.lapwing.files;

import dev.lapwing.files.Node.Scalar;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.Quantity;
import dev.lapwing.quantity.Unit;
import dev.lapwing.quantity.UnreadableQuantity;
import dev.lapwing.source.Place;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;

/** Reads figures with their units, and says what is wrong with one that is not as it should be. */
final class Figures {
    private static final int LENGTH_MAX = 60;
    /** Shorter units are all near each other. */
    private static final int HINTED_MIN = 3;

    private final Reading reading;

    Figures(Reading reading) {
        this.reading = reading;
    }

    /** A figure of that kind, anywhere in the kind's wide range. */
    Optional<Quantity> figure(Node node, Dimension dimension) {
        return figure(node, Range.of(dimension), dimension);
    }

    /** A figure of one of those kinds, inside a range. */
    Optional<Quantity> figure(Node node, Range range, Dimension... allowed) {
        return reading.scalar(node, examples(allowed)).flatMap(scalar -> figure(scalar, range, allowed));
    }

    private Optional<Quantity> figure(Scalar scalar, Range range, Dimension... allowed) {
        return parse(scalar.text(), scalar.place(), allowed)
                .filter(quantity -> checkRange(scalar.text(), quantity, scalar.place(), range));
    }

    /** Text as a figure of one of those kinds, whatever its size; with none named, of any kind. */
    Optional<Quantity> parse(String text, Place place, Dimension... allowed) {
        if (text.length() > LENGTH_MAX) {
            reading.mistake(place, Quoted.of(text) + " is no figure", examples(allowed), "");
            return Optional.empty();
        }
        try {
            Quantity quantity = Quantity.parse(text);
            if (allowed.length == 0 || List.of(allowed).contains(quantity.dimension())) {
                return Optional.of(quantity);
            }
            String kind = kind(quantity.dimension());
            reading.mistake(place, Quoted.of(text) + " is " + kind, examples(allowed), "");
        } catch (UnreadableQuantity e) {
            String unit = e.unknownUnit();
            String found =
                    unit.isEmpty() ? e.getMessage() : Quoted.of(text) + " has the unknown unit " + Quoted.of(unit);
            reading.mistake(place, found, examples(allowed), unit.isEmpty() ? "" : nearUnit(unit, allowed));
        }
        return Optional.empty();
    }

    /** True if it lies inside; else a mistake that names the range in the unit that was written. */
    boolean checkRange(String text, Quantity quantity, Place place, Range range) {
        if (range.holds(quantity.base())) {
            return true;
        }
        String expected = between(text, quantity.dimension(), range);
        reading.mistake(place, Quoted.of(text) + " is out of range", expected, "");
        return false;
    }

    /** {@code between 0 psi and 290 psi}, in the unit that was written. */
    String between(String text, Dimension dimension, Range range) {
        Unit unit = unitOf(text, dimension);
        String least = new Quantity(range.least(), dimension).print(unit, 4);
        String most = new Quantity(range.most(), dimension).print(unit, 4);
        return "between " + least + " and " + most;
    }

    /** {@code a pressure}, without the examples. */
    static String kind(Dimension dimension) {
        String example = dimension.example();
        return example.substring(0, example.indexOf(" such as"));
    }

    /** What to write for one of those kinds. */
    static String examples(Dimension... allowed) {
        return allowed.length == 0
                ? "a figure with its unit"
                : Arrays.stream(allowed).map(Dimension::example).collect(Collectors.joining(", or "));
    }

    private static Unit unitOf(String text, Dimension dimension) {
        List<Unit> units = Unit.of(dimension);
        String end = text.strip();
        return units.stream()
                .filter(unit -> unit.spellings().stream().anyMatch(end::endsWith))
                .max((a, b) -> Integer.compare(a.symbol().length(), b.symbol().length()))
                .orElse(units.get(0));
    }

    private static String nearUnit(String written, Dimension... allowed) {
        List<String> known = Arrays.stream(allowed.length == 0 ? Dimension.values() : allowed)
                .flatMap(dimension -> Unit.of(dimension).stream())
                .flatMap(unit -> unit.spellings().stream())
                .toList();
        String small = written.toLowerCase(Locale.ROOT);
        return known.stream()
                .filter(spelling -> spelling.toLowerCase(Locale.ROOT).equals(small))
                .findFirst()
                .map(spelling -> "did you mean '" + spelling + "'?")
                .orElseGet(() -> written.length() < HINTED_MIN ? "" : Reading.near(written, known));
    }
}
