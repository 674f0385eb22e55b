package dev.lapwing.files;

import dev.lapwing.sequence.Operand;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * What stands around a step.
 *
 * @param loops values of each loop variable that is defined here
 * @param body  what the step belongs to
 */
record Scope(Map<String, List<Operand>> loops, Body body) {
    static Scope of(Body body) {
        return new Scope(Map.of(), body);
    }

    /** This scope inside a loop. */
    Scope with(String variable, List<Operand> values) {
        Map<String, List<Operand>> inner = new LinkedHashMap<>(loops);
        inner.put(variable, values);
        return new Scope(inner, body);
    }
}
