package dev.lapwing.sequence;

import dev.lapwing.source.Place;
import java.util.List;
import java.util.stream.Stream;

/**
 * Something that is true or not at each instant. Some look ahead from it: their bounds are times after the instant,
 * both included, and what they hold may look ahead in turn.
 */
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

    /** The condition does not hold. */
    record Not(Condition condition) implements Condition {
        @Override
        public Stream<SignalRef> signals() {
            return condition.signals();
        }
    }

    /** Looks ahead: it holds at every instant from one time to another. */
    record Always(Operand from, Operand to, Condition holds, Place place) implements Condition {
        @Override
        public Stream<SignalRef> signals() {
            return holds.signals();
        }
    }

    /** Looks ahead: it holds at one instant at least, from one time to another. */
    record Eventually(Operand from, Operand to, Condition holds, Place place) implements Condition {
        @Override
        public Stream<SignalRef> signals() {
            return holds.signals();
        }
    }

    /** Looks ahead: {@code then} comes from one time to another, and {@code holds} until just before it. */
    record Until(Operand from, Operand to, Condition holds, Condition then, Place place) implements Condition {
        @Override
        public Stream<SignalRef> signals() {
            return Stream.concat(holds.signals(), then.signals());
        }
    }
}
