package dev.lapwing.files;

import dev.lapwing.quantity.Dimension;
import dev.lapwing.sequence.Condition;
import dev.lapwing.sequence.Operand;
import dev.lapwing.sequence.SignalRef;
import dev.lapwing.source.Place;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** The arguments of one expectation. */
record Arguments(Reading reading, Operands operands, Signals signals, Conditions conditions, Form form, Scope scope) {

    SignalRef level(String key) {
        return form.value(key).map(node -> signals.level(node, scope)).orElse(Signals.none(form.place()));
    }

    SignalRef.Wire wire() {
        return form.value("wire").map(signals::wire).orElse(new SignalRef.Wire("", form.place()));
    }

    boolean on(String key) {
        return form.value(key)
                .flatMap(node -> reading.choice(node, "state of a wire", Reading.either("on", "off")))
                .orElse(false);
    }

    Operand limit(String key) {
        return optionalLimit(key).orElse(Operands.none(form.place()));
    }

    Optional<Operand> optionalLimit(String key) {
        return form.value(key).map(node -> operands.limit(node, scope));
    }

    Operand time(String key) {
        return optionalTime(key).orElse(Operands.none(form.place()));
    }

    Optional<Operand> optionalTime(String key) {
        return form.value(key).map(node -> operands.time(node, scope));
    }

    /** A level to be crossed, of the kind that the signal has. */
    Operand crossed(SignalRef signal, String key) {
        Dimension[] allowed = Signals.dimensions(signal);
        return form.value(key)
                .map(node -> operands.value(node, scope, Range.of(allowed[0]), allowed))
                .orElse(Operands.none(form.place()));
    }

    Condition condition(String key) {
        return form.value(key).map(node -> conditions.condition(node, scope)).orElse(new Condition.AllOf(List.of()));
    }

    String name(String key, String expected) {
        return form.value(key).flatMap(node -> reading.name(node, expected)).orElse("");
    }

    /** Another expectation of the sequence: its name, with {@code @4} for one of several vehicles. */
    String other(String key) {
        String expected = "the name of an expectation, with '@4' for one of several vehicles";
        return form.value(key)
                .flatMap(node -> reading.scalar(node, expected))
                .filter(scalar ->
                        reading.checkName(scalar.text().replaceFirst("@[1-9]\\d?$", ""), scalar.place(), expected))
                .map(Node.Scalar::text)
                .orElse("");
    }

    String text(String key) {
        return optionalText(key).orElse("");
    }

    Optional<String> optionalText(String key) {
        return form.value(key).map(node -> operands.template(node, scope, "what to remember it as"));
    }

    /** A plain value of one of those kinds. */
    Operand value(String key, Range range, Dimension... allowed) {
        return optionalValue(key, range, allowed).orElse(Operands.none(form.place()));
    }

    Optional<Operand> optionalValue(String key, Range range, Dimension... allowed) {
        return form.value(key).map(node -> operands.value(node, scope, range, allowed));
    }

    /** One of some words; empty if it is none of them or does not stand. */
    <T> Optional<T> choice(String key, String what, Map<String, T> choices) {
        return form.value(key).flatMap(node -> reading.choice(node, what, choices));
    }

    /** What a set of remembered levels is called: the beginning of their names. */
    Optional<String> levels(String key) {
        return form.value(key).flatMap(node -> reading.text(node, "what the names of remembered levels begin with"));
    }

    boolean has(String key) {
        return form.value(key).isPresent();
    }

    void mistake(String key, String found, String expected, String hint) {
        reading.mistake(form.place(key), found, expected, hint);
    }

    Place place() {
        return form.place();
    }
}
