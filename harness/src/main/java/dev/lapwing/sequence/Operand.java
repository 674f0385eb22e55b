package dev.lapwing.sequence;

import dev.lapwing.quantity.Quantity;
import dev.lapwing.source.Place;

/** A figure as a step refers to it. */
public sealed interface Operand {
    Place place();

    /** Written out with its unit. */
    record Written(Quantity quantity, Place place) implements Operand {}

    /** An acceptance figure of the fixture, by name. */
    record Named(String figure, Place place) implements Operand {}

    /** The variable of a loop around the step; written {@code <name>}. */
    record Variable(String name, Place place) implements Operand {}
}
