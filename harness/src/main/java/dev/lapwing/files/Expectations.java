package dev.lapwing.files;

import dev.lapwing.files.Node.Entry;
import dev.lapwing.sequence.Expectation;
import dev.lapwing.sequence.Operand;
import dev.lapwing.sequence.SignalRef;
import dev.lapwing.sequence.Step.NamedExpectation;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Reads expectations, each under its name. */
final class Expectations {
    private final Reading reading;
    private final Operands operands;
    private final Signals signals;
    private final Conditions conditions;

    Expectations(Reading reading, Operands operands, Signals signals, Conditions conditions) {
        this.reading = reading;
        this.operands = operands;
        this.signals = signals;
        this.conditions = conditions;
    }

    List<NamedExpectation> expectations(Node node, Scope scope) {
        List<NamedExpectation> read = new ArrayList<>();
        scope.body().expects();
        reading.entries(node, "a map from names to expectations").ifPresent(map -> {
            for (Entry entry : map.entries()) {
                named(entry, scope).ifPresent(read::add);
            }
        });
        return List.copyOf(read);
    }

    private Optional<NamedExpectation> named(Entry entry, Scope scope) {
        if (reading.checkName(entry.key(), entry.place(), "a name such as 'rear-cylinder-fills'")
                && !scope.body().newExpectation(entry.key(), entry.place())) {
            String first = "it stands first in line "
                    + scope.body().firstOf(entry.key()).line();
            reading.mistake(entry.place(), "expectation '" + entry.key() + "' stands twice", "a name for each", first);
        }
        return reading.entries(entry.value(), "an expectation: " + Reading.oneOf(Shapes.EXPECTATIONS.keySet()))
                .flatMap(map -> expectation(map, scope))
                .map(expectation -> new NamedExpectation(entry.key(), expectation, entry.place()));
    }

    private Optional<Expectation> expectation(Node.Entries map, Scope scope) {
        Entry verb = map.entries().get(0);
        if (map.entries().size() > 1) {
            Entry second = map.entries().get(1);
            String found = "a second expectation " + Quoted.of(second.key()) + " under one name";
            reading.mistake(second.place(), found, "a name for each", "");
        }
        Shape shape = Shapes.EXPECTATIONS.get(verb.key());
        if (shape == null) {
            reading.unknown(verb.place(), "expectation", verb.key(), Shapes.EXPECTATIONS.keySet());
            return Optional.empty();
        }
        return reading.form(verb.value(), shape)
                .map(form ->
                        expectation(verb.key(), new Arguments(reading, operands, signals, conditions, form, scope)));
    }

    private Expectation expectation(String verb, Arguments in) {
        return switch (verb) {
            case "settles-at-law" ->
                new Expectation.SettlesAtLaw(
                        in.level("signal"),
                        in.name("law", "the name of a law of the fixture"),
                        in.limit("tolerance"),
                        in.time("after"),
                        in.time("over"),
                        in.optionalText("remember"));
            case "settles-at" ->
                new Expectation.SettlesAt(
                        in.level("signal"),
                        in.limit("level"),
                        in.time("after"),
                        in.time("over"),
                        in.optionalText("remember"));
            case "holds" ->
                new Expectation.Holds(in.level("signal"), in.limit("leak"), in.time("after"), in.time("over"));
            case "rises-above" -> crossing(true, in);
            case "falls-below" -> crossing(false, in);
            case "stays-between" ->
                new Expectation.StaysBetween(in.level("signal"), in.limit("band"), in.optionalTime("over"));
            case "switches" -> new Expectation.Switches(in.wire(), in.on("to"), in.limit("within"));
            case "pulses-at-most" ->
                new Expectation.PulsesAtMost(in.wire(), in.limit("count"), in.optionalTime("over"));
            default -> relation(verb, in);
        };
    }

    private static Expectation crossing(boolean rising, Arguments in) {
        SignalRef signal = in.level("signal");
        Operand level = in.crossed(signal, "level");
        Operand within = in.limit("within");
        return rising
                ? new Expectation.RisesAbove(signal, level, within)
                : new Expectation.FallsBelow(signal, level, within);
    }

    /** Expectations of one thing against another. */
    private Expectation relation(String verb, Arguments in) {
        return switch (verb) {
            case "never" ->
                new Expectation.Never(
                        in.condition("condition"), in.optionalTime("longer-than"), in.optionalTime("over"));
            case "comes-before" ->
                new Expectation.ComesBefore(
                        in.condition("first"), in.condition("then"), in.limit("by"), in.time("within"));
            case "comes-true" -> new Expectation.ComesTrue(in.condition("condition"), in.optionalLimit("margin"));
            case "stays-true" ->
                new Expectation.StaysTrue(
                        in.condition("condition"), in.optionalLimit("margin"), in.optionalTime("over"));
            case "agrees" ->
                new Expectation.Agrees(
                        in.level("signal"),
                        in.level("with"),
                        in.limit("difference"),
                        in.time("after"),
                        in.time("over"));
            case "follows" ->
                new Expectation.Follows(in.level("signal"), in.name("curve", "the name of a curve of the fixture"));
            case "compares" -> new Expectation.Compares(in.other("expectation"), in.other("with"), in.limit("limit"));
            case "moves" ->
                new Expectation.Moves(in.level("signal"), in.limit("change"), in.time("after"), in.time("over"));
            case "repeats" ->
                new Expectation.Repeats(
                        in.level("signal"),
                        in.text("remembered"),
                        in.limit("difference"),
                        in.time("after"),
                        in.time("over"));
            case "changes" ->
                new Expectation.Changes(in.level("signal"), in.limit("change"), in.time("from"), in.time("to"));
            default -> Quantities.expectation(verb, in);
        };
    }
}
