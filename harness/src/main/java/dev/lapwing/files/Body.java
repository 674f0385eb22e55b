package dev.lapwing.files;

import dev.lapwing.sequence.Step;
import dev.lapwing.source.Place;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** What the steps of one part, or of one section of a sequence, call and ask of the steps around them. */
final class Body {

    /** A call of a part, and the loop variables that are defined there. */
    record Call(String part, Place place, Set<String> variables) {}

    private final Place place;
    private final Kind kind;
    private final Map<String, Place> expectationNames = new HashMap<>();
    private final List<Call> calls = new ArrayList<>();
    private final Map<String, Place> asked = new LinkedHashMap<>();
    private List<Step> steps = List.of();
    private boolean expects;

    /** What the steps belong to, which settles what they may do. */
    enum Kind {
        STEPS(true, false),
        WITHOUT_EXPECTATIONS(false, false),
        PART(true, true);

        private final boolean mayExpect;
        private final boolean mayAsk;

        Kind(boolean mayExpect, boolean mayAsk) {
            this.mayExpect = mayExpect;
            this.mayAsk = mayAsk;
        }
    }

    Body(Place place, Kind kind) {
        this.place = place;
        this.kind = kind;
    }

    Place place() {
        return place;
    }

    boolean mayExpect() {
        return kind.mayExpect;
    }

    /** True if a variable that no loop here defines may be defined by a loop around the call. */
    boolean mayAsk() {
        return kind.mayAsk;
    }

    void call(String part, Place place, Set<String> variables) {
        calls.add(new Call(part, place, Set.copyOf(variables)));
    }

    void ask(String variable, Place place) {
        asked.putIfAbsent(variable, place);
    }

    void expects() {
        expects = true;
    }

    /** The steps, once they are read. */
    void hold(List<Step> read) {
        steps = List.copyOf(read);
    }

    List<Step> steps() {
        return steps;
    }

    boolean isEmpty() {
        return steps.isEmpty();
    }

    /** True if the name has not been used in this body. */
    boolean newExpectation(String name, Place place) {
        return expectationNames.putIfAbsent(name, place) == null;
    }

    Place firstOf(String expectation) {
        return expectationNames.get(expectation);
    }

    List<Call> calls() {
        return calls;
    }

    Set<String> asked() {
        return asked.keySet();
    }

    boolean hasExpectations() {
        return expects;
    }
}
