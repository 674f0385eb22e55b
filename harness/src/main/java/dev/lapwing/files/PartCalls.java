package dev.lapwing.files;

import dev.lapwing.files.Body.Call;
import dev.lapwing.files.Parts.Draft;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;

/** What calls of parts must keep to: the part is there, calls do not go round, and it finds the variables it uses. */
final class PartCalls {
    /** Parts that call parts that call parts: more than this nobody can read. */
    static final int DEPTH_MAX = 40;

    private final Map<String, Draft> parts;
    private final boolean complete;
    private final Reading reading;
    /** How many calls deep a part goes, for each part that has been looked at. */
    private final Map<String, Integer> depths = new HashMap<>();

    private final Map<String, Set<String>> asked = new HashMap<>();
    private boolean tooDeep;
    private boolean circle;

    PartCalls(Map<String, Draft> parts, boolean complete, Reading reading) {
        this.parts = parts;
        this.complete = complete;
        this.reading = reading;
    }

    /** True if the calls can be followed: they do not go round and end somewhere. */
    boolean check(List<Body> sections) {
        List<Body> all = new ArrayList<>(sections);
        parts.values().forEach(draft -> all.add(draft.body()));
        for (Call call : all.stream().flatMap(body -> body.calls().stream()).toList()) {
            if (complete && !parts.containsKey(call.part())) {
                reading.unknown(call.place(), "part", call.part(), parts.keySet());
            }
        }
        for (String part : parts.keySet()) {
            depth(part, new ArrayDeque<>());
        }
        if (!tooDeep) {
            sections.forEach(section -> section.calls().forEach(call -> checkCall(call, section)));
        }
        return !tooDeep && !circle;
    }

    /** Depth first; {@code path} holds the parts that are being called, the latest first. */
    private int depth(String part, Deque<String> path) {
        if (depths.containsKey(part)) {
            return depths.get(part);
        }
        path.push(part);
        int deepest = 0;
        for (Call call : calls(part)) {
            if (path.contains(call.part())) {
                reportCircle(call, path);
            } else {
                int inner = path.size() > DEPTH_MAX ? DEPTH_MAX : depth(call.part(), path);
                if (inner >= DEPTH_MAX && !tooDeep) {
                    tooDeep = true;
                    reading.mistake(call.place(), "parts call parts more than " + DEPTH_MAX + " deep");
                }
                deepest = Math.max(deepest, inner + 1);
            }
        }
        path.pop();
        depths.put(part, deepest);
        return deepest;
    }

    private void reportCircle(Call call, Deque<String> path) {
        List<String> round = new ArrayList<>();
        for (String caller : path) {
            round.add(0, caller);
            if (caller.equals(call.part())) {
                break;
            }
        }
        round.add(call.part());
        circle = true;
        reading.mistake(call.place(), "part '" + call.part() + "' is called in a circle: " + String.join(" → ", round));
    }

    private void checkCall(Call call, Body section) {
        if (!section.mayExpect() && expects(call.part(), new HashSet<>())) {
            String found = "part '" + call.part() + "' has expectations";
            reading.mistake(call.place(), found, "no expectation in 'prepare' and 'tidy-up'", "");
        }
        Set<String> missing = new TreeSet<>(asked(call.part()));
        missing.removeAll(call.variables());
        if (!missing.isEmpty()) {
            String names = missing.stream().map(name -> "'<" + name + ">'").collect(Collectors.joining(", "));
            String found = "part '" + call.part() + "' uses " + names + ", which no loop around this call defines";
            reading.mistake(call.place(), found);
        }
    }

    /** True if the steps expect something, themselves or through a part. */
    boolean expects(Body body) {
        Set<String> seen = new HashSet<>();
        return body.hasExpectations() || body.calls().stream().anyMatch(call -> expects(call.part(), seen));
    }

    private boolean expects(String part, Set<String> seen) {
        if (!seen.add(part) || !parts.containsKey(part)) {
            return false;
        }
        return parts.get(part).body().hasExpectations()
                || calls(part).stream().anyMatch(call -> expects(call.part(), seen));
    }

    /** Variables that a part, or what it calls, uses and does not define. */
    private Set<String> asked(String part) {
        Set<String> known = asked.get(part);
        if (known != null || !parts.containsKey(part)) {
            return known == null ? Set.of() : known;
        }
        Set<String> all = new TreeSet<>(parts.get(part).body().asked());
        // Known from here on, though not to the end: so that a circle of calls has an end.
        asked.put(part, all);
        for (Call inner : calls(part)) {
            Set<String> further = new TreeSet<>(asked(inner.part()));
            further.removeAll(inner.variables());
            all.addAll(further);
        }
        return all;
    }

    private List<Call> calls(String part) {
        return parts.containsKey(part) ? parts.get(part).body().calls() : List.of();
    }
}
