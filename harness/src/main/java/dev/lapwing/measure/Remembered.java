package dev.lapwing.measure;

import dev.lapwing.finding.Mark;
import dev.lapwing.uncertainty.Estimate;
import java.util.List;

/**
 * A level that an expectation was to remember.
 *
 * @param level the level itself
 * @param marks where it was read
 */
public record Remembered(Estimate level, List<Mark> marks) {
    public Remembered {
        marks = List.copyOf(marks);
    }

    /** Under which name what an expectation measured is remembered, whatever it is. */
    public static String ofExpectation(String id) {
        return "expectation " + id;
    }

    /** Why there is none under that name. */
    static Doubt missing(String name) {
        return new Doubt(
                "the level '" + name + "' that it is held against was not measured",
                "see why the expectation that remembers it was not measured");
    }
}
