package dev.lapwing.files;

import dev.lapwing.files.Node.Entry;
import dev.lapwing.files.Node.Scalar;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.Quantity;
import dev.lapwing.sequence.Operand;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/** Reads the heads of loops: a variable and its values, as a list or as a range. */
final class Loops {
    static final int VALUES_MAX = 1000;

    private final Reading reading;
    private final Operands operands;

    Loops(Reading reading, Operands operands) {
        this.reading = reading;
        this.operands = operands;
    }

    /** A variable and its values, all of one kind. */
    record Loop(String variable, List<Operand> values) {}

    Optional<Loop> loop(Node node, Scope scope) {
        return reading.entries(node, "a variable and its values, such as {demand: [10 %, 25 %]}")
                .flatMap(map -> {
                    Entry head = map.entries().get(0);
                    if (map.entries().size() > 1) {
                        reading.mistake(map.entries().get(1).place(), "a second variable in one loop", "one", "");
                    }
                    boolean good = reading.checkName(head.key(), head.place(), "a variable's name such as 'demand'");
                    if (scope.loops().containsKey(head.key())) {
                        reading.mistake(head.place(), "a loop around this uses '" + head.key() + "' already");
                    }
                    List<Operand> values =
                            head.value() instanceof Node.Entries range ? range(range) : list(head.value());
                    return good ? Optional.of(new Loop(head.key(), values)) : Optional.empty();
                });
    }

    private List<Operand> list(Node node) {
        List<Operand> values = new ArrayList<>();
        for (Node item : reading.items(node, "a list of values, or {from: …, to: …, by: …}")) {
            operands.loopValue(item).ifPresent(values::add);
        }
        Set<Optional<Dimension>> kinds = new HashSet<>();
        for (Operand value : values) {
            kinds.add(kind(value));
            if (kinds.size() > 1) {
                String due = kind(values.get(0)).map(Figures::examples).orElse("the name of an acceptance figure");
                reading.mistake(value.place(), "this value is not of the kind of the first", due, "");
                break;
            }
        }
        return List.copyOf(values);
    }

    private static Optional<Dimension> kind(Operand value) {
        return value instanceof Operand.Written written
                ? Optional.of(written.quantity().dimension())
                : Optional.empty();
    }

    private List<Operand> range(Node.Entries node) {
        return reading.form(node, Shapes.RANGE)
                .flatMap(form -> {
                    Optional<Quantity> from = end(form, "from");
                    Optional<Quantity> to = end(form, "to");
                    Optional<Quantity> by = end(form, "by");
                    return from.flatMap(f -> to.flatMap(t -> by.map(b -> values(form, f, t, b))));
                })
                .orElse(List.of());
    }

    private Optional<Quantity> end(Form form, String key) {
        Optional<Node> node = form.value(key);
        if (node.isPresent() && node.get() instanceof Scalar scalar && !Quantity.looksLikeFigure(scalar.text())) {
            reading.mistake(scalar.place(), Quoted.of(scalar.text()) + " is no figure", Figures.examples(), "");
            return Optional.empty();
        }
        return node.flatMap(operands::loopValue)
                .filter(Operand.Written.class::isInstance)
                .map(operand -> ((Operand.Written) operand).quantity());
    }

    private List<Operand> values(Form form, Quantity from, Quantity to, Quantity by) {
        if (to.dimension() != from.dimension() || by.dimension() != from.dimension()) {
            String key = to.dimension() != from.dimension() ? "to" : "by";
            String found = "'" + key + "' is not of the kind of 'from'";
            reading.mistake(form.place(key), found, from.dimension().example(), "");
            return List.of();
        }
        if (by.base() <= 0) {
            reading.mistake(form.place("by"), "'by' is not above zero", "the step from one value to the next", "");
            return List.of();
        }
        double span = Math.abs(to.base() - from.base());
        double count = Math.floor(span / by.base() + 1e-9) + 1;
        if (count > VALUES_MAX) {
            reading.mistake(form.place("by"), "the loop has more than " + VALUES_MAX + " values");
            return List.of();
        }
        double step = to.base() < from.base() ? -by.base() : by.base();
        List<Operand> values = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            Quantity value = new Quantity(rounded(from.base() + i * step), from.dimension());
            values.add(new Operand.Written(value, form.place("from")));
        }
        return List.copyOf(values);
    }

    /** Without the last digits, in which 10 % three times and 30 % differ. */
    private static double rounded(double value) {
        return new BigDecimal(value)
                .round(new MathContext(14, RoundingMode.HALF_EVEN))
                .doubleValue();
    }
}
