package dev.lapwing.plan;

import dev.lapwing.finding.Limit;
import dev.lapwing.naming.Signal;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.sequence.Operand;
import dev.lapwing.source.Place;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * In what the margin of a condition is told. Levels of one kind: in their unit, unless the figure for the margin is a
 * time. Wires alone, or levels of several kinds: in time, as there is no common unit.
 */
final class Margins {
    /** Times count up to this at least, in s: what is further away makes no margin more comfortable. */
    private static final double REACH = 2;

    private final Lookup lookup;

    Margins(Lookup lookup) {
        this.lookup = lookup;
    }

    Check.Temporal check(
            PlannedCondition condition,
            boolean lasting,
            OptionalDouble over,
            Optional<Operand> margin,
            Scope scope,
            Place place) {
        List<Dimension> kinds = condition.signals().stream()
                .filter(signal -> !signal.digital())
                .map(Signal::dimension)
                .distinct()
                .toList();
        Dimension natural = kinds.size() == 1 ? kinds.get(0) : Dimension.TIME;
        Limit limit =
                margin.map(figure -> limit(figure, natural, scope)).orElseGet(() -> Figures.holdsAtAll(natural, place));
        double reach = limit.dimension() == Dimension.TIME
                ? Math.max(REACH, 2 * limit.lower().orElse(0))
                : 0;
        return new Check.Temporal(condition, lasting, over, reach, limit);
    }

    private Limit limit(Operand figure, Dimension natural, Scope scope) {
        Limit limit = natural == Dimension.TIME
                ? lookup.figures().limit(figure, scope, Dimension.TIME)
                : lookup.figures().limit(figure, scope, natural, Dimension.TIME);
        if (limit.lower().isEmpty() || limit.upper().isPresent()) {
            lookup.mistake(
                    figure.place(),
                    "margin '" + limit.figure() + "' (" + limit.place() + ") is "
                            + lookup.text().ends(limit),
                    "the least margin: at-least",
                    "");
        }
        return limit;
    }
}
