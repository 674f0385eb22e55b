package dev.lapwing.sequence;

import java.util.List;

/** Something that is true or not at each instant. */
public sealed interface Condition {
    /** The signal is above a level. With {@code every} vehicle: at all of them. */
    record Above(SignalRef signal, Operand level) implements Condition {}

    /** The signal is below a level. With {@code every} vehicle: at all of them. */
    record Below(SignalRef signal, Operand level) implements Condition {}

    /** The wire is on, or off. */
    record WireIs(SignalRef.Wire wire, boolean on) implements Condition {}

    /** All of them at once. */
    record AllOf(List<Condition> parts) implements Condition {}

    /** At least one of them. */
    record AnyOf(List<Condition> parts) implements Condition {}
}
