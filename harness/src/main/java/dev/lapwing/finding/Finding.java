package dev.lapwing.finding;

import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Conformity;
import dev.lapwing.uncertainty.Estimate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.UnaryOperator;

/**
 * What is reported of one expectation.
 *
 * @param id       unique in the sequence and stable: {@code rear-cylinder-fills}, with {@code [2]} for the second pass
 *                 of a loop and {@code @4} for a vehicle
 * @param sentence the expectation as a person reads it, limits with their units
 * @param place    where it stands in the sequence file
 * @param verdict  see {@link Verdict}
 * @param because  one plain sentence why, figures with units; never empty
 * @param measured the measured quantity, if there is one
 * @param quantity what was measured, in words: {@code time to rise above 45 psi}; empty if nothing could be
 * @param limit    what it was held against, if it was
 * @param margin   distance to the nearest limit, in the base unit of {@code measured}; negative outside
 * @param window   the stretch of bench time looked at, if any
 * @param marks    points to draw into the traces
 */
public record Finding(
        String id,
        String sentence,
        String place,
        Verdict verdict,
        String because,
        Optional<Estimate> measured,
        String quantity,
        Optional<Limit> limit,
        OptionalDouble margin,
        Optional<Window> window,
        List<Mark> marks) {

    public Finding {
        if (because.isEmpty()) {
            throw new IllegalArgumentException("finding " + id + " does not say why");
        }
        if (verdict == Verdict.PASS && measured.isEmpty()) {
            throw new IllegalArgumentException("no pass without a measurement: " + id);
        }
        marks = List.copyOf(marks);
    }

    /** One for which nothing could be measured. Never a pass. */
    public static Finding unmeasured(
            String id,
            String sentence,
            String place,
            Verdict verdict,
            String because,
            Optional<Limit> limit,
            Optional<Window> window) {
        return new Finding(
                id,
                sentence,
                place,
                verdict,
                because,
                Optional.empty(),
                "",
                limit,
                OptionalDouble.empty(),
                window,
                List.of());
    }

    /** The same with its sentences told in other words; figures, limit and verdict stay. */
    public Finding told(UnaryOperator<String> words) {
        return new Finding(
                id,
                words.apply(sentence),
                place,
                verdict,
                words.apply(because),
                measured,
                words.apply(quantity),
                limit,
                margin,
                window,
                marks.stream()
                        .map(mark -> new Mark(mark.signal(), mark.timeUs(), mark.value(), words.apply(mark.label())))
                        .toList());
    }

    /** How likely the thing itself is inside its limit; empty where there is no measured value of the limit's kind. */
    public Optional<Conformity> conformity() {
        return limit.filter(l -> margin.isPresent())
                .flatMap(l ->
                        measured.filter(m -> m.dimension() == l.dimension()).map(l::conformity));
    }
}
