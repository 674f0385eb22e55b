package dev.lapwing.sequence;

import dev.lapwing.naming.PressureKind;
import dev.lapwing.source.Place;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * What must follow, as written. Times count from the bench's stamp of the last stimulus before the expectation, unless
 * said otherwise. {@code settled} and {@code over} are when a level counts as settled and over how long it is averaged.
 */
public sealed interface Expectation {
    /** The signals that it speaks of. */
    Stream<SignalRef> signals();

    /** Speaks of one signal. */
    sealed interface OneSignal extends Expectation {
        SignalRef signal();

        @Override
        default Stream<SignalRef> signals() {
            return Stream.of(signal());
        }
    }

    /** Speaks of what a condition speaks of. */
    sealed interface OneCondition extends Expectation {
        Condition condition();

        @Override
        default Stream<SignalRef> signals() {
            return condition().signals();
        }
    }

    /** The level stands at the law's value for the handle's commanded place. Measured: level minus law. */
    record SettlesAtLaw(
            SignalRef signal, String law, Operand tolerance, Operand settled, Operand over, Optional<String> rememberAs)
            implements OneSignal {}

    /** The level stands at a figure. Measured: the level. */
    record SettlesAt(SignalRef signal, Operand level, Operand settled, Operand over, Optional<String> rememberAs)
            implements OneSignal {}

    /** The level holds, from {@code settled} on, over {@code over}. Measured: rate of fall, or total fall. */
    record Holds(SignalRef signal, Operand leak, Operand settled, Operand over) implements OneSignal {}

    /** Measured: time from the stimulus until the signal rises above the level. */
    record RisesAbove(SignalRef signal, Operand level, Operand within) implements OneSignal {}

    /** Measured: time from the stimulus until the signal falls below the level. */
    record FallsBelow(SignalRef signal, Operand level, Operand within) implements OneSignal {}

    /** The signal stays inside a band for a time, or for the time of the steps around it. Measured: its extremes. */
    record StaysBetween(SignalRef signal, Operand band, Optional<Operand> over) implements OneSignal {}

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
    record Never(Condition condition, Optional<Operand> longerThan, Optional<Operand> over) implements OneCondition {}

    /** Measured: time from the first instant of one condition to that of the other. */
    record ComesBefore(Condition first, Condition then, Operand by, Operand within) implements Expectation {
        @Override
        public Stream<SignalRef> signals() {
            return Stream.concat(first.signals(), then.signals());
        }
    }

    /**
     * The condition, which may look ahead, holds at the origin. Measured: its margin, in the unit of its levels or in
     * time. Without a figure for the margin: it holds at all.
     */
    record ComesTrue(Condition condition, Optional<Operand> margin) implements OneCondition {}

    /** The condition, which may look ahead, holds at every instant of a time. Measured: its least margin. */
    record StaysTrue(Condition condition, Optional<Operand> margin, Optional<Operand> over) implements OneCondition {}

    /**
     * The signal stays between the curves that the fixture states over the time after the stimulus. Measured: its least
     * distance from them.
     */
    record Follows(SignalRef signal, String curve) implements OneSignal {}

    /**
     * What one expectation measured, held against what another did. Measured: the first over the second where the limit
     * is a share, else the first minus the second.
     */
    record Compares(String expectation, String with, Operand limit) implements Expectation {
        @Override
        public Stream<SignalRef> signals() {
            return Stream.empty();
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
    record Moves(SignalRef signal, Operand change, Operand settled, Operand over) implements OneSignal {}

    /** Measured: settled level minus the remembered one. */
    record Repeats(SignalRef signal, String remembered, Operand difference, Operand settled, Operand over)
            implements OneSignal {}

    /** Measured: level at {@code to} minus level at {@code from}, both after the stimulus. */
    record Changes(SignalRef signal, Operand change, Operand from, Operand to) implements OneSignal {}

    /**
     * A term of the response to the stimulus. The first state is the mean just before the stimulus, the last one that
     * over {@code over} from {@code settled} on, unless they are given or taken from the histogram.
     *
     * @param share of the change: of the time to a share
     * @param band  to either side of the last state, a share of the change: of the settling duration
     */
    record Responds(
            SignalRef signal,
            ResponseTerm term,
            Optional<Operand> share,
            Optional<Operand> band,
            Optional<Operand> first,
            Optional<Operand> last,
            boolean byHistogram,
            Operand limit,
            Operand settled,
            Operand over)
            implements OneSignal {}

    /** Measured: time from the stimulus until the signal, at rest before, begins to move. */
    record Begins(SignalRef signal, boolean rising, Operand within) implements OneSignal {}

    /** Measured: greatest slope over {@code width} in that direction, positive. */
    record Steepest(SignalRef signal, boolean rising, Operand rate, Operand width, Operand over) implements OneSignal {}

    /** Measured: speed at which the beginning of a movement goes from vehicle to vehicle. It speaks of them all. */
    record Travels(
            PressureKind pressure,
            boolean rising,
            Operand spacing,
            Optional<Operand> spacingWithin,
            Operand speed,
            Operand within,
            Place place)
            implements Expectation {
        @Override
        public Stream<SignalRef> signals() {
            return Stream.empty();
        }
    }

    /** Measured: how long the condition holds, from when it first begins to. */
    record Lasts(Condition condition, Operand time, Operand within) implements OneCondition {}

    /** Measured: time from the stimulus until the signal is back within a band about the remembered level for good. */
    record Recovers(SignalRef signal, String remembered, Operand band, Operand within) implements OneSignal {}

    /** Measured: greatest departure from the remembered level. */
    record Departs(SignalRef signal, String remembered, Operand difference, Optional<Operand> over)
            implements OneSignal {}

    /**
     * A term of a staircase of remembered levels.
     *
     * @param levels what their names begin with
     * @param with   likewise, of the way back: of the hysteresis
     * @param answer change that counts as an answer: of the smallest graduation
     */
    record Graduates(
            String levels,
            StaircaseTerm term,
            Optional<String> with,
            Optional<Operand> answer,
            Operand limit,
            Place place)
            implements Expectation {
        @Override
        public Stream<SignalRef> signals() {
            return Stream.empty();
        }
    }
}
