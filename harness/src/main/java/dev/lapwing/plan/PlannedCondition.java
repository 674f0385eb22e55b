package dev.lapwing.plan;

import dev.lapwing.naming.Signal;
import java.util.List;

/** A resolved condition. Levels in the base unit of the signal. */
public sealed interface PlannedCondition {
    /** The signals that it reads, each once. */
    List<Signal> signals();

    /** How far ahead it looks at most, in s; 0 for what is seen at once. */
    default double horizon() {
        return 0;
    }

    record Above(Signal signal, double level) implements PlannedCondition {
        @Override
        public List<Signal> signals() {
            return List.of(signal);
        }
    }

    record Below(Signal signal, double level) implements PlannedCondition {
        @Override
        public List<Signal> signals() {
            return List.of(signal);
        }
    }

    record WireIs(Signal.Wire wire, boolean on) implements PlannedCondition {
        @Override
        public List<Signal> signals() {
            return List.of(wire);
        }
    }

    record AllOf(List<PlannedCondition> parts) implements PlannedCondition {
        @Override
        public List<Signal> signals() {
            return signalsOf(parts);
        }

        @Override
        public double horizon() {
            return furthest(parts);
        }
    }

    record AnyOf(List<PlannedCondition> parts) implements PlannedCondition {
        @Override
        public List<Signal> signals() {
            return signalsOf(parts);
        }

        @Override
        public double horizon() {
            return furthest(parts);
        }
    }

    /** Not so; only ever of {@link Until}, as everything else is turned round where it is resolved. */
    record Not(PlannedCondition condition) implements PlannedCondition {
        @Override
        public List<Signal> signals() {
            return condition.signals();
        }

        @Override
        public double horizon() {
            return condition.horizon();
        }
    }

    /** Looks ahead: holds at every instant from {@code from} s to {@code to} s after, both included. */
    record Always(double from, double to, PlannedCondition holds) implements PlannedCondition {
        @Override
        public List<Signal> signals() {
            return holds.signals();
        }

        @Override
        public double horizon() {
            return to + holds.horizon();
        }
    }

    /** Looks ahead: holds at one instant at least. */
    record Eventually(double from, double to, PlannedCondition holds) implements PlannedCondition {
        @Override
        public List<Signal> signals() {
            return holds.signals();
        }

        @Override
        public double horizon() {
            return to + holds.horizon();
        }
    }

    /** Looks ahead: {@code then} comes between these times, and {@code holds} until just before it. */
    record Until(double from, double to, PlannedCondition holds, PlannedCondition then) implements PlannedCondition {
        @Override
        public List<Signal> signals() {
            return signalsOf(List.of(holds, then));
        }

        @Override
        public double horizon() {
            return to + furthest(List.of(holds, then));
        }
    }

    private static double furthest(List<PlannedCondition> parts) {
        return parts.stream().mapToDouble(PlannedCondition::horizon).max().orElse(0);
    }

    private static List<Signal> signalsOf(List<PlannedCondition> parts) {
        return parts.stream()
                .flatMap(part -> part.signals().stream())
                .distinct()
                .toList();
    }
}
