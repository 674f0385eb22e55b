package dev.lapwing.sequence;

import java.util.Optional;
import java.util.stream.Stream;

/**
 * What must follow, as written. Times count from the bench's stamp of the last stimulus before the expectation, unless
 * said otherwise. {@code settled} and {@code over} are when a level counts as settled and over how long it is averaged.
 */
public sealed interface Expectation {
    /** The signals that it speaks of. */
    Stream<SignalRef> signals();

    /** The level stands at the law's value for the handle's commanded place. Measured: level minus law. */
    record SettlesAtLaw(
            SignalRef signal, String law, Operand tolerance, Operand settled, Operand over, Optional<String> rememberAs)
            implements Expectation {
        @Override
        public Stream<SignalRef> signals() {
            return Stream.of(signal);
        }
    }

    /** The level stands at a figure. Measured: the level. */
    record SettlesAt(SignalRef signal, Operand level, Operand settled, Operand over, Optional<String> rememberAs)
            implements Expectation {
        @Override
        public Stream<SignalRef> signals() {
            return Stream.of(signal);
        }
    }

    /** The level holds, from {@code settled} on, over {@code over}. Measured: rate of fall, or total fall. */
    record Holds(SignalRef signal, Operand leak, Operand settled, Operand over) implements Expectation {
        @Override
        public Stream<SignalRef> signals() {
            return Stream.of(signal);
        }
    }

    /** Measured: time from the stimulus until the signal rises above the level. */
    record RisesAbove(SignalRef signal, Operand level, Operand within) implements Expectation {
        @Override
        public Stream<SignalRef> signals() {
            return Stream.of(signal);
        }
    }

    /** Measured: time from the stimulus until the signal falls below the level. */
    record FallsBelow(SignalRef signal, Operand level, Operand within) implements Expectation {
        @Override
        public Stream<SignalRef> signals() {
            return Stream.of(signal);
        }
    }

    /** The signal stays inside a band for a time, or for the time of the steps around it. Measured: its extremes. */
    record StaysBetween(SignalRef signal, Operand band, Optional<Operand> over) implements Expectation {
        @Override
        public Stream<SignalRef> signals() {
            return Stream.of(signal);
        }
    }

    /** Measured: time from the stimulus until the wire switches to that level. */
    record Switches(SignalRef.Wire wire, boolean on, Operand within) implements Expectation {
        @Override
        public Stream<SignalRef> signals() {
            return Stream.of(wire);
        }
    }

    /** Measured: how often the wire switches on. */
    record PulsesAtMost(SignalRef.Wire wire, Operand count, Optional<Operand> over) implements Expectation {
        @Override
        public Stream<SignalRef> signals() {
            return Stream.of(wire);
        }
    }

    /** Measured: how often the condition held for longer than allowed. */
    record Never(Condition condition, Optional<Operand> longerThan, Optional<Operand> over) implements Expectation {
        @Override
        public Stream<SignalRef> signals() {
            return condition.signals();
        }
    }

    /** Measured: time from the first instant of one condition to that of the other. */
    record ComesBefore(Condition first, Condition then, Operand by, Operand within) implements Expectation {
        @Override
        public Stream<SignalRef> signals() {
            return Stream.concat(first.signals(), then.signals());
        }
    }

    /** Measured: settled level of one signal minus that of the other. */
    record Agrees(SignalRef signal, SignalRef with, Operand difference, Operand settled, Operand over)
            implements Expectation {
        @Override
        public Stream<SignalRef> signals() {
            return Stream.of(signal, with);
        }
    }

    /** Measured: settled level minus the level just before the stimulus. */
    record Moves(SignalRef signal, Operand change, Operand settled, Operand over) implements Expectation {
        @Override
        public Stream<SignalRef> signals() {
            return Stream.of(signal);
        }
    }

    /** Measured: settled level minus the remembered one. */
    record Repeats(SignalRef signal, String remembered, Operand difference, Operand settled, Operand over)
            implements Expectation {
        @Override
        public Stream<SignalRef> signals() {
            return Stream.of(signal);
        }
    }

    /** Measured: level at {@code to} minus level at {@code from}, both after the stimulus. */
    record Changes(SignalRef signal, Operand change, Operand from, Operand to) implements Expectation {
        @Override
        public Stream<SignalRef> signals() {
            return Stream.of(signal);
        }
    }
}
