package dev.lapwing.plan;

import dev.lapwing.source.Mistake;
import java.util.List;

/** What came of resolving a sequence: a plan, or every mistake that stands in its way. */
public sealed interface Resolution {
    /** Nothing stands in the way. */
    record Resolved(Plan plan) implements Resolution {}

    /** At least one mistake; none of it can be run. */
    record Mistaken(List<Mistake> mistakes) implements Resolution {
        public Mistaken {
            mistakes = List.copyOf(mistakes);
        }
    }
}
