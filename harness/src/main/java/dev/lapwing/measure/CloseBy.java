package dev.lapwing.measure;

import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Estimate;
import java.util.Optional;

/**
 * What a time told by a condition or a band owes to levels that were passed by little, or nearly passed: looked for
 * again with its levels moved by their expanded uncertainty to either side, it may lie further off than its slopes say.
 */
final class CloseBy {
    /** What would mend it. */
    static final String MEND = "choose a level that is surely passed, or use a better transducer";

    private CloseBy() {}

    /**
     * What widens the expanded uncertainty to what was found, if that is more.
     *
     * @param off    by how much the time was another with a level moved, in s
     * @param source key of it
     */
    static Optional<Component> of(Estimate time, double off, String source) {
        double known = time.expanded();
        return off > known
                ? Optional.of(new Component(source, Math.sqrt(off * off - known * known) / 2))
                : Optional.empty();
    }
}
