package dev.lapwing.files;

import dev.lapwing.files.Node.Entry;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.Quantity;
import dev.lapwing.sequence.Condition;
import dev.lapwing.sequence.Operand;
import dev.lapwing.sequence.SignalRef;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Reads conditions: maps from a signal to what it must be, all of them at once; and what holds always, eventually or
 * until something else, looking ahead.
 */
final class Conditions {
    private static final String EXPECTED =
            "a condition such as 'brake-pipe at last: above 65 psi' or 'wire traction: off'";

    private final Reading reading;
    private final Operands operands;
    private final Signals signals;

    Conditions(Reading reading, Operands operands, Signals signals) {
        this.reading = reading;
        this.operands = operands;
        this.signals = signals;
    }

    Condition condition(Node node, Scope scope) {
        return all(reading.entries(node, EXPECTED).map(Node.Entries::entries).orElse(List.of()), scope);
    }

    /** All of the entries at once. */
    Condition all(List<Entry> entries, Scope scope) {
        List<Condition> parts = new ArrayList<>();
        for (Entry entry : entries) {
            part(entry, scope).ifPresent(parts::add);
        }
        return parts.size() == 1 ? parts.get(0) : new Condition.AllOf(List.copyOf(parts));
    }

    private Optional<Condition> part(Entry entry, Scope scope) {
        switch (entry.key()) {
            case "any-of":
                return Optional.of(new Condition.AnyOf(list(entry.value(), scope)));
            case "all-of":
                return Optional.of(new Condition.AllOf(list(entry.value(), scope)));
            case "not":
                return Optional.of(new Condition.Not(condition(entry.value(), scope)));
            case "always", "eventually", "until":
                return reading.form(entry.value(), Shapes.AHEAD.get(entry.key()))
                        .map(form -> ahead(entry, form, scope));
            default:
                return signals.signal(entry.key(), entry.place(), scope).flatMap(signal -> state(signal, entry, scope));
        }
    }

    private Condition ahead(Entry entry, Form form, Scope scope) {
        Operand from = form.value("from")
                .map(node -> operands.time(node, scope))
                .orElse(new Operand.Written(new Quantity(0, Dimension.TIME), form.place()));
        Operand to = form.value("to").map(node -> operands.time(node, scope)).orElse(Operands.none(form.place()));
        Condition holds = part(form, "holds", scope);
        return switch (entry.key()) {
            case "always" -> new Condition.Always(from, to, holds, entry.place());
            case "eventually" -> new Condition.Eventually(from, to, holds, entry.place());
            default -> new Condition.Until(from, to, holds, part(form, "then", scope), entry.place());
        };
    }

    private Condition part(Form form, String key, Scope scope) {
        return form.value(key).map(node -> condition(node, scope)).orElse(new Condition.AllOf(List.of()));
    }

    private List<Condition> list(Node node, Scope scope) {
        return reading.items(node, "a list of conditions").stream()
                .map(item -> condition(item, scope))
                .toList();
    }

    private Optional<Condition> state(SignalRef signal, Entry entry, Scope scope) {
        if (signal instanceof SignalRef.Wire wire) {
            return reading.choice(entry.value(), "state of a wire", Reading.either("on", "off"))
                    .map(on -> new Condition.WireIs(wire, on));
        }
        String expected = "'above' or 'below' and a level";
        return reading.scalar(entry.value(), expected).flatMap(scalar -> {
            String[] words = scalar.text().split("\\s+", 2);
            boolean above = words[0].equals("above");
            if (words.length < 2 || !above && !words[0].equals("below")) {
                String near = Reading.near(words[0], List.of("above", "below"));
                reading.mistake(scalar.place(), Quoted.of(scalar.text()) + " is no state of a level", expected, near);
                return Optional.empty();
            }
            Dimension[] allowed = Signals.dimensions(signal);
            Optional<Operand> level = operands.value(words[1], scalar.place(), scope, Range.of(allowed[0]), allowed);
            return level.map(at -> above ? new Condition.Above(signal, at) : new Condition.Below(signal, at));
        });
    }
}
