package dev.lapwing.sequence;

import java.util.List;
import java.util.stream.Stream;

/** Something that is true or not at each instant. */
public sealed interface Condition {
    /** The signals that it speaks of. */
    Stream<SignalRef> signals();

    /** The signal is above a level. With {@code every} vehicle: at all of them. */
    record Above(SignalRef signal, Operand level) implements Condition {
        @Override
        public Stream<SignalRef> signals() {
            return Stream.of(signal);
        }
    }

    /** The signal is below a level. With {@code every} vehicle: at all of them. */
    record Below(SignalRef signal, Operand level) implements Condition {
        @Override
        public Stream<SignalRef> signals() {
            return Stream.of(signal);
        }
    }

    /** The wire is on, or off. */
    record WireIs(SignalRef.Wire wire, boolean on) implements Condition {
        @Override
        public Stream<SignalRef> signals() {
            return Stream.of(wire);
        }
    }

    /** All of them at once. */
    record AllOf(List<Condition> parts) implements Condition {
        @Override
        public Stream<SignalRef> signals() {
            return parts.stream().flatMap(Condition::signals);
        }
    }

    /** At least one of them. */
    record AnyOf(List<Condition> parts) implements Condition {
        @Override
        public Stream<SignalRef> signals() {
            return parts.stream().flatMap(Condition::signals);
        }
    }
}
