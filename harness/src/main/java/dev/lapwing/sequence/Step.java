package dev.lapwing.sequence;

import dev.lapwing.naming.DesignOption;
import dev.lapwing.source.Place;
import java.util.List;

/** One step of a sequence, as written. */
public sealed interface Step {
    Place place();

    /** One stimulus, or several at the same instant. */
    record Stimulate(List<Stimulus> stimuli, Place place) implements Step {}

    /** Let time pass. */
    record Wait(Operand time, Place place) implements Step {}

    /** Wait until a condition holds; if it has not within the time, the rest is not run. */
    record WaitUntil(Condition condition, Operand atMost, Place place) implements Step {}

    /** The steps once for each value. */
    record ForEach(String variable, List<Operand> values, List<Step> steps, Place place) implements Step {}

    /** The steps of a named part. */
    record CallPart(String part, Place place) implements Step {}

    /** The steps only for units of that design. */
    record OnlyIf(DesignOption option, List<Step> steps, Place place) implements Step {}

    /** Expectations from here on, side by side; the step ends when the last of them is decided. */
    record Expect(List<NamedExpectation> expectations, Place place) implements Step {}

    /** Expectations over the time that the steps take. */
    record While(List<NamedExpectation> expectations, List<Step> steps, Place place) implements Step {}

    /**
     * An expectation and its name.
     *
     * @param name unique in its sequence or part, in kebab-case
     */
    record NamedExpectation(String name, Expectation expectation, Place place) {}
}
