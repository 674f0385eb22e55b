package dev.lapwing.plan;

import dev.lapwing.finding.Limit;
import dev.lapwing.naming.Signal;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.sequence.ResponseTerm;
import dev.lapwing.sequence.StaircaseTerm;
import dev.lapwing.signal.Polyline;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;

/**
 * What an expectation measures and holds against its limit, resolved. Times in s after the origin, which is the bench's
 * stamp of the last stimulus before the expectation, or the instant at which a wait-until after that was met; the
 * opening of the expectation if there was neither. Levels in the base unit of the signal. {@code settled} and {@code
 * over}: the level is the mean over {@code over} from {@code settled} on.
 */
public sealed interface Check {
    Limit limit();

    /** What it looks at, each once. */
    List<Signal> signals();

    /**
     * How long after its origin it must be watched at most, in s; a crossing may be decided earlier. Empty: until the
     * steps of the {@link PlanStep.While} around it end.
     */
    OptionalDouble watchSeconds();

    /** Looks at one signal. */
    sealed interface OneSignal extends Check {
        Signal signal();

        @Override
        default List<Signal> signals() {
            return List.of(signal());
        }
    }

    /** Looks at what a condition does. */
    sealed interface OneCondition extends Check {
        PlannedCondition condition();

        @Override
        default List<Signal> signals() {
            return condition().signals();
        }
    }

    /** Is decided by what comes within {@code patience} s. */
    sealed interface Patient extends Check {
        double patience();

        @Override
        default OptionalDouble watchSeconds() {
            return OptionalDouble.of(patience());
        }
    }

    /** Is decided by what there is over {@code over} s from {@code settled} s on. */
    sealed interface Settled extends Check {
        double settled();

        double over();

        @Override
        default OptionalDouble watchSeconds() {
            return OptionalDouble.of(settled() + over());
        }
    }

    /** Is decided by all of {@code over} s. Empty: for the time of the steps around it. */
    sealed interface Lasting extends Check {
        OptionalDouble over();

        @Override
        default OptionalDouble watchSeconds() {
            return over();
        }
    }

    /** Mean level minus {@code target} (0 where the limit is of the level itself). */
    record SettledLevel(
            Signal signal, double target, double settled, double over, Optional<String> rememberAs, Limit limit)
            implements OneSignal, Settled {}

    /** Rate of fall (limit in Pa/s) or total fall (limit in Pa) over {@code over} from {@code settled} on. */
    record Leak(Signal signal, double settled, double over, Limit limit) implements OneSignal, Settled {}

    /** Time until the signal crosses the level. */
    record Crossing(Signal signal, boolean rising, double level, double patience, Limit limit)
            implements OneSignal, Patient {}

    /** Extreme nearest the limit. */
    record Stays(Signal signal, OptionalDouble over, Limit limit) implements OneSignal, Lasting {}

    /** Time until the wire switches to {@code on}. */
    record WireSwitches(Signal.Wire wire, boolean on, double patience, Limit limit) implements Patient {
        @Override
        public List<Signal> signals() {
            return List.of(wire);
        }
    }

    /** How often the wire switches on. */
    record Pulses(Signal.Wire wire, OptionalDouble over, Limit limit) implements Lasting {
        @Override
        public List<Signal> signals() {
            return List.of(wire);
        }
    }

    /** How often the condition held for longer than {@code longerThan} s. The limit is a count of at most 0. */
    record NeverHolds(PlannedCondition condition, double longerThan, OptionalDouble over, Limit limit)
            implements OneCondition, Lasting {}

    /** Time from the first instant of {@code first} to that of {@code then}; negative in the other order. */
    record ComesBefore(PlannedCondition first, PlannedCondition then, double patience, Limit limit) implements Patient {
        @Override
        public List<Signal> signals() {
            return new PlannedCondition.AllOf(List.of(first, then)).signals();
        }
    }

    /**
     * Margin of a condition that may look ahead: at the origin, or the least at every instant of {@code over} from
     * there on. Where the limit is a time, how much earlier or later things could come without a change of its truth,
     * counted up to {@code reach} s; else how far its levels are from being passed.
     *
     * @param lasting true for every instant; false for the origin alone
     * @param over    how long in s; empty where {@code lasting}: until the steps around it end
     */
    record Temporal(PlannedCondition condition, boolean lasting, OptionalDouble over, double reach, Limit limit)
            implements OneCondition {
        @Override
        public OptionalDouble watchSeconds() {
            double more = condition.horizon() + (inTime() ? reach : 0);
            return lasting && over.isEmpty() ? OptionalDouble.empty() : OptionalDouble.of(over.orElse(0) + more);
        }

        /** True where the margin is a time. */
        public boolean inTime() {
            return limit.dimension() == Dimension.TIME;
        }
    }

    /**
     * Least distance of a signal from curves of the time after the origin, inside counting above 0; levels in the base
     * unit. Each holds where it is stated. The limit is one of at least 0.
     */
    record Follows(Signal signal, Optional<Polyline> lower, Optional<Polyline> upper, Limit limit)
            implements OneSignal {
        @Override
        public OptionalDouble watchSeconds() {
            return OptionalDouble.of(Stream.concat(lower.stream(), upper.stream())
                    .mapToDouble(Polyline::to)
                    .max()
                    .orElse(0));
        }
    }

    /**
     * What one expectation measured, over or minus what another did.
     *
     * @param expectation id of the one
     * @param with        id of the other
     * @param over        true for their ratio
     */
    record Comparison(String expectation, String with, boolean over, Limit limit) implements Check {
        @Override
        public List<Signal> signals() {
            return List.of();
        }

        @Override
        public OptionalDouble watchSeconds() {
            return OptionalDouble.of(0);
        }
    }

    /** Mean level of one signal minus that of another. */
    record Agreement(Signal signal, Signal with, double settled, double over, Limit limit) implements Settled {
        @Override
        public List<Signal> signals() {
            return List.of(signal, with);
        }
    }

    /** Mean level minus the mean over the {@code before} s that end at the origin. */
    record Movement(Signal signal, double before, double settled, double over, Limit limit)
            implements OneSignal, Settled {}

    /** Mean level minus a remembered one. */
    record Repeat(Signal signal, String remembered, double settled, double over, Limit limit)
            implements OneSignal, Settled {}

    /** Level at {@code to} minus level at {@code from}, each the mean over {@code over} s from there. */
    record Change(Signal signal, double from, double to, double over, Limit limit) implements OneSignal {
        @Override
        public OptionalDouble watchSeconds() {
            return OptionalDouble.of(to + over);
        }
    }

    /**
     * A term of the response of a signal, which goes from one state to another. {@code share}: the share of the change
     * that it is the time to, or the band about the last state that it settles into; else 0.
     */
    record Response(
            Signal signal, ResponseTerm term, double share, States states, double settled, double over, Limit limit)
            implements OneSignal, Settled {
        /** True where it is a time that counts from the stimulus. */
        public boolean sinceStimulus() {
            return term == ResponseTerm.TIME_TO_SHARE;
        }
    }

    /**
     * What the states of a response are. Where neither a figure nor the histogram gives them, the first one is the mean
     * over the {@code before} s that end at the origin and the last one that over {@code over} from {@code settled} on.
     *
     * @param first     the first one as a figure
     * @param last      the last one as a figure
     * @param histogram both from the histogram
     */
    record States(OptionalDouble first, OptionalDouble last, boolean histogram, double before) {}

    /** Time until the signal, at rest before, begins to move. */
    record Onset(Signal signal, boolean rising, double patience, Limit limit) implements OneSignal, Patient {}

    /** Greatest slope over {@code width} s in that direction, positive. */
    record SteepestRate(Signal signal, boolean rising, double width, double over, Limit limit) implements OneSignal {
        @Override
        public OptionalDouble watchSeconds() {
            return OptionalDouble.of(over);
        }
    }

    /**
     * Speed at which the beginning of a movement goes from signal to signal, which are {@code spacing} m apart, give or
     * take {@code spacingWithin} m, all alike.
     */
    record Travel(
            List<Signal> signals, boolean rising, double spacing, double spacingWithin, double patience, Limit limit)
            implements Patient {}

    /** How long the condition holds, from when it first begins to. */
    record Duration(PlannedCondition condition, double patience, Limit limit) implements OneCondition, Patient {}

    /** Time until the signal is back within {@code band} to either side of the remembered level for good. */
    record Recovery(Signal signal, String remembered, double band, double patience, Limit limit)
            implements OneSignal, Patient {}

    /** Extreme nearest the limit, minus a remembered level. */
    record Departure(Signal signal, String remembered, OptionalDouble over, Limit limit)
            implements OneSignal, Lasting {}

    /**
     * A term of a run of remembered levels, in the order in which they were measured. {@code with}: those of the way
     * back. {@code answer}: the change that counts as an answer.
     */
    record Staircase(StaircaseTerm term, List<Plateau> levels, List<Plateau> with, double answer, Limit limit)
            implements Check {
        @Override
        public List<Signal> signals() {
            return Stream.concat(levels.stream(), with.stream())
                    .map(Plateau::signal)
                    .distinct()
                    .toList();
        }

        @Override
        public OptionalDouble watchSeconds() {
            return OptionalDouble.of(0);
        }
    }

    /** A remembered level and the angle that the handle was commanded to, in degrees. */
    record Plateau(String remembered, Signal signal, double degrees) {}
}
