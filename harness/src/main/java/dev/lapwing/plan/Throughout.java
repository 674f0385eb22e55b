package dev.lapwing.plan;

import dev.lapwing.finding.Limit;
import dev.lapwing.sequence.AlwaysProperty;
import java.util.Map;

/**
 * An always-on property with its figures.
 *
 * @param property which
 * @param limits   by figure name; a plain value stands as a limit of at most that value
 */
public record Throughout(AlwaysProperty property, Map<String, Limit> limits) {

    /** Id of its finding, unlike that of any expectation. */
    public String id() {
        return id(property);
    }

    /** Id of the finding on a property, whether it is watched or left out. */
    public static String id(AlwaysProperty property) {
        return "throughout/" + property.text();
    }
}
