package dev.lapwing.plan;

import dev.lapwing.sequence.Operand;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * What surrounds a step while loops are unrolled and parts put in place.
 *
 * @param variables what each loop variable stands for
 * @param values    the loops' values as they stand in an id, outermost first
 * @param parts     names of the parts that the step stands in, outermost first
 * @param every     the vehicle that {@code every} stands for at the moment
 * @param whyNot    why this unit is not asked; empty if it is
 */
record Scope(
        Map<String, Operand> variables,
        List<String> values,
        List<String> parts,
        OptionalInt every,
        Optional<String> whyNot) {

    static Scope asked() {
        return new Scope(Map.of(), List.of(), List.of(), OptionalInt.empty(), Optional.empty());
    }

    static Scope notAsked(String why) {
        return new Scope(Map.of(), List.of(), List.of(), OptionalInt.empty(), Optional.of(why));
    }

    Scope in(String variable, Operand value, String text) {
        Map<String, Operand> more = new HashMap<>(variables);
        more.put(variable, value);
        List<String> longer = new ArrayList<>(values);
        longer.add(text);
        return new Scope(Map.copyOf(more), List.copyOf(longer), parts, every, whyNot);
    }

    Scope inPart(String part) {
        List<String> longer = new ArrayList<>(parts);
        longer.add(part);
        return new Scope(variables, values, List.copyOf(longer), every, whyNot);
    }

    Scope at(int vehicle) {
        return new Scope(variables, values, parts, OptionalInt.of(vehicle), whyNot);
    }

    /** Not asked for that reason, unless there already is one. */
    Scope leftOut(String why) {
        return new Scope(variables, values, parts, every, Optional.of(whyNot.orElse(why)));
    }

    /** The id of an expectation of that name here. */
    String id(String name) {
        return name
                + (values.isEmpty() ? "" : "[" + String.join(", ", values) + "]")
                + (every.isPresent() ? "@" + every.getAsInt() : "");
    }

    /** What a variable stands for; anything else stands for itself. Empty for a variable of no loop around. */
    Optional<Operand> meant(Operand operand) {
        return operand instanceof Operand.Variable variable
                ? Optional.ofNullable(variables.get(variable.name()))
                : Optional.of(operand);
    }
}
