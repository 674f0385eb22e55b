package dev.lapwing.plan;

import dev.lapwing.sequence.Condition;
import dev.lapwing.sequence.Expectation;
import dev.lapwing.sequence.SignalRef;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/** The signals that an expectation speaks of. */
final class Mentioned {
    private Mentioned() {}

    /** True where it goes through every vehicle, with a finding for each. */
    static boolean everyVehicle(Expectation expectation) {
        return in(expectation).anyMatch(Conditions::everyVehicle);
    }

    private static Stream<SignalRef> in(Expectation expectation) {
        if (expectation instanceof Expectation.Agrees e) {
            return Stream.of(e.signal(), e.with());
        }
        if (expectation instanceof Expectation.Never e) {
            return in(e.condition());
        }
        if (expectation instanceof Expectation.ComesBefore e) {
            return Stream.concat(in(e.first()), in(e.then()));
        }
        return one(expectation).stream();
    }

    private static Optional<SignalRef> one(Expectation expectation) {
        SignalRef signal = null;
        if (expectation instanceof Expectation.SettlesAtLaw e) {
            signal = e.signal();
        } else if (expectation instanceof Expectation.SettlesAt e) {
            signal = e.signal();
        } else if (expectation instanceof Expectation.Holds e) {
            signal = e.signal();
        } else if (expectation instanceof Expectation.RisesAbove e) {
            signal = e.signal();
        } else if (expectation instanceof Expectation.FallsBelow e) {
            signal = e.signal();
        } else if (expectation instanceof Expectation.StaysBetween e) {
            signal = e.signal();
        } else if (expectation instanceof Expectation.Moves e) {
            signal = e.signal();
        } else if (expectation instanceof Expectation.Repeats e) {
            signal = e.signal();
        } else if (expectation instanceof Expectation.Changes e) {
            signal = e.signal();
        }
        return Optional.ofNullable(signal);
    }

    private static Stream<SignalRef> in(Condition condition) {
        if (condition instanceof Condition.Above above) {
            return Stream.of(above.signal());
        }
        if (condition instanceof Condition.Below below) {
            return Stream.of(below.signal());
        }
        if (condition instanceof Condition.AllOf all) {
            return inAll(all.parts());
        }
        return condition instanceof Condition.AnyOf any ? inAll(any.parts()) : Stream.empty();
    }

    private static Stream<SignalRef> inAll(List<Condition> parts) {
        return parts.stream().flatMap(Mentioned::in);
    }
}
