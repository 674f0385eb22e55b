package dev.lapwing.files;

import dev.lapwing.bench.Point;
import dev.lapwing.bench.PointKind;
import dev.lapwing.bench.Register.Table;
import dev.lapwing.files.Node.Entry;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.Quantity;
import dev.lapwing.source.Place;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.stream.Stream;

/** Reads the terminals of a bench, and finds them for what refers to them. */
final class PointReader {
    private static final String NAME = "[A-Za-z0-9-]{1,32}";
    private static final Range DELAY = new Range(0, 10);
    private static final Map<String, PointKind> KINDS = Reading.byText(PointKind.values(), PointKind::text);

    private final Reading reading;
    private final RegisterReader registers;
    private final Figures figures;
    private final Map<String, Point> points = new LinkedHashMap<>();
    /** Which point is used where, so that no two things use one. */
    private final Map<String, String> users = new LinkedHashMap<>();
    /** False once a point could not be read; then a name that is not known may be one of those. */
    private boolean complete;

    PointReader(Reading reading, RegisterReader registers) {
        this.reading = reading;
        this.registers = registers;
        this.figures = new Figures(reading);
    }

    void read(Node node) {
        Optional<Node.Entries> map = reading.entries(node, "a map from names of points to what they are");
        complete = map.isPresent();
        map.ifPresent(entries -> entries.entries().forEach(this::point));
    }

    List<Point> points() {
        return List.copyOf(points.values());
    }

    private void point(Entry entry) {
        checkName(reading, entry.key(), entry.place(), "point");
        Optional<Node> kindNode =
                entry.value() instanceof Node.Entries map ? map.entry("kind").map(Entry::value) : Optional.empty();
        Optional<PointKind> kind = kindNode.flatMap(n -> reading.choice(n, "kind of point", KINDS));
        if (kindNode.isPresent() && kind.isEmpty()) {
            complete = false;
            return;
        }
        Optional<Form> form =
                reading.form(entry.value(), kind.map(PointReader::shape).orElse(ANY));
        complete &= kind.isPresent();
        form.ifPresent(f -> kind.ifPresent(k -> points.put(entry.key(), point(entry.key(), k, f))));
    }

    private static final Shape ANY = Shape.of("a point").must("kind").may(anyKeys());

    private static String[] anyKeys() {
        Stream<String> tables = Arrays.stream(Table.values()).map(Table::text);
        Stream<String> others = Stream.concat(
                Stream.of("min", "max", "safe", "filter", "stamp", "glitch", RegisterReader.MODULE),
                RegisterReader.CONTACT.stream());
        return Stream.concat(others, tables).toArray(String[]::new);
    }

    /** The keys of a point of that kind. */
    static Shape shape(PointKind kind) {
        return measured(kind, Shape.of("a point of kind '" + kind.text() + "'")).may(RegisterReader.keys(kind));
    }

    private static Shape measured(PointKind kind, Shape shape) {
        return switch (kind) {
            case ANALOG_IN, COUNTER_IN ->
                shape.must("kind", "min", "max", "stamp").may("filter");
            case DIGITAL_IN -> shape.must("kind", "stamp").may("filter", "glitch");
            case DIGITAL_OUT -> shape.must("kind", "safe");
            case ANALOG_OUT, PULSE_OUT, PWM_OUT -> shape.must("kind", "min", "max", "safe");
        };
    }

    private Point point(String name, PointKind kind, Form form) {
        Shape shape = shape(kind);
        Optional<Integer> min = kind.digital() ? Optional.of(0) : counts(form, shape, "min");
        Optional<Integer> max = kind.digital() ? Optional.of(1) : counts(form, shape, "max");
        Optional<Integer> safe = counts(form, shape, "safe");
        boolean range = min.isPresent() && max.isPresent() && min.get() < max.get();
        if (range && safe.isPresent() && (safe.get() < min.get() || safe.get() > max.get())) {
            String expected = "from " + min.get() + " to " + max.get() + " counts";
            reading.mistake(form.place("safe"), "the safe count is out of the point's range", expected, "");
        }
        if (!range && min.isPresent() && max.isPresent()) {
            reading.mistake(form.place("max"), "the greatest count is not above the least");
        }
        registers.read(name, kind, form);
        if (range && !kind.digital()) {
            registers.checkRange(min.get(), max.get(), form);
        }
        // A range that could not be read holds every count, so that it causes no further mistakes.
        return new Point(
                name,
                kind,
                range ? min.get() : Integer.MIN_VALUE,
                range ? max.get() : Integer.MAX_VALUE,
                safe.orElse(0),
                micros(form, shape, "filter"),
                micros(form, shape, "stamp"),
                micros(form, shape, "glitch"));
    }

    private Optional<Integer> counts(Form form, Shape shape, String key) {
        if (!shape.keys().contains(key)) {
            return Optional.empty();
        }
        return form.value(key)
                .flatMap(n -> figures.figure(n, Dimension.CONVERTER_COUNT))
                .flatMap(q -> {
                    if (q.base() != Math.rint(q.base())) {
                        reading.mistake(form.place(key), "'" + key + "' is no whole number of counts");
                        return Optional.empty();
                    }
                    return Optional.of((int) q.base());
                });
    }

    private int micros(Form form, Shape shape, String key) {
        return !shape.keys().contains(key)
                ? 0
                : form.value(key)
                        .flatMap(n -> figures.figure(n, DELAY, Dimension.TIME))
                        .map(q -> (int) Math.round(q.base() * 1e6))
                        .orElse(0);
    }

    /** The point of that name and kind; empty, with a mistake, if there is none. */
    Optional<Point> find(Node node, Predicate<PointKind> due, String dueName) {
        Optional<String> name = reading.text(node, "the name of a point");
        if (name.isEmpty()) {
            return Optional.empty();
        }
        Point point = points.get(name.get());
        if (point == null) {
            if (complete) {
                reading.unknown(node.place(), "point", name.get(), points.keySet());
            }
            return Optional.empty();
        }
        if (!due.test(point.kind())) {
            String found =
                    "point '" + point.name() + "' is of kind '" + point.kind().text() + "'";
            reading.mistake(node.place(), found, "a point of kind " + dueName, "");
            return Optional.empty();
        }
        return Optional.of(point);
    }

    /** Reserves a point for one signal or actuator. */
    void use(Point point, String user, Place place) {
        String before = users.putIfAbsent(point.name(), user);
        if (before != null) {
            reading.mistake(
                    place, "point '" + point.name() + "' is used by '" + before + "' already", "a point for each", "");
        }
    }

    static void checkName(Reading reading, String name, Place place, String what) {
        if (!name.matches(NAME)) {
            String expected = "at most 32 letters, digits and hyphens";
            reading.mistake(place, Quoted.of(name) + " is no name of a " + what, expected, "");
        }
    }

    /** The count of a quantity on a point's scale lies in the point's range; else a mistake. */
    void checkCount(Point point, Quantity count, Place place) {
        if (count.base() < point.min() || count.base() > point.max()) {
            String expected =
                    "from " + point.min() + " to " + point.max() + " counts, the range of '" + point.name() + "'";
            reading.mistake(place, "the count is out of the point's range", expected, "");
        }
    }
}
