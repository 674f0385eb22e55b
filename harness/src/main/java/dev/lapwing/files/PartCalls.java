package dev.lapwing.files;

import dev.lapwing.files.Body.Call;
import dev.lapwing.files.Parts.Draft;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;

/** What calls of parts must keep to: the part is there, calls do not go round, and it finds the variables it uses. */
final class PartCalls {
    private final Map<String, Draft> parts;
    private final boolean complete;
    private final Reading reading;

    PartCalls(Map<String, Draft> parts, boolean complete, Reading reading) {
        this.parts = parts;
        this.complete = complete;
        this.reading = reading;
    }

    void check(List<Body> sections) {
        List<Body> all = new ArrayList<>(sections);
        parts.values().forEach(draft -> all.add(draft.body()));
        for (Call call : all.stream().flatMap(body -> body.calls().stream()).toList()) {
            if (complete && !parts.containsKey(call.part())) {
                reading.unknown(call.place(), "part", call.part(), parts.keySet());
            }
        }
        Set<String> seen = new HashSet<>();
        for (String part : parts.keySet()) {
            findCircles(part, new ArrayDeque<>(), seen);
        }
        for (Body section : sections) {
            section.calls().forEach(call -> checkCall(call, section));
        }
    }

    /** Depth first; {@code path} holds the parts that are being called, the latest first. */
    private void findCircles(String part, Deque<String> path, Set<String> seen) {
        if (!seen.add(part)) {
            return;
        }
        path.push(part);
        for (Call call : calls(part)) {
            if (path.contains(call.part())) {
                List<String> circle = new ArrayList<>();
                for (String caller : path) {
                    circle.add(0, caller);
                    if (caller.equals(call.part())) {
                        break;
                    }
                }
                circle.add(call.part());
                String found = "part '" + call.part() + "' is called in a circle: " + String.join(" → ", circle);
                reading.mistake(call.place(), found);
            } else {
                findCircles(call.part(), path, seen);
            }
        }
        path.pop();
    }

    private void checkCall(Call call, Body section) {
        if (!section.mayExpect() && expects(call.part(), new HashSet<>())) {
            String found = "part '" + call.part() + "' has expectations";
            reading.mistake(call.place(), found, "no expectation in 'prepare' and 'tidy-up'", "");
        }
        Set<String> missing = asked(call, new HashSet<>());
        if (!missing.isEmpty()) {
            String names = missing.stream().map(name -> "'<" + name + ">'").collect(Collectors.joining(", "));
            String found = "part '" + call.part() + "' uses " + names + ", which no loop around this call defines";
            reading.mistake(call.place(), found);
        }
    }

    boolean expects(Body body) {
        return body.hasExpectations() || body.calls().stream().anyMatch(call -> expects(call.part(), new HashSet<>()));
    }

    private boolean expects(String part, Set<String> seen) {
        if (!seen.add(part) || !parts.containsKey(part)) {
            return false;
        }
        return parts.get(part).body().hasExpectations()
                || calls(part).stream().anyMatch(call -> expects(call.part(), seen));
    }

    /** Variables that the called part, or what it calls, uses and that are not defined at the call. */
    private Set<String> asked(Call call, Set<String> callers) {
        if (!parts.containsKey(call.part()) || !callers.add(call.part())) {
            return Set.of();
        }
        Set<String> asked = new TreeSet<>(parts.get(call.part()).body().asked());
        calls(call.part()).forEach(inner -> asked.addAll(asked(inner, callers)));
        callers.remove(call.part());
        asked.removeAll(call.variables());
        return asked;
    }

    private List<Call> calls(String part) {
        return parts.containsKey(part) ? parts.get(part).body().calls() : List.of();
    }
}
