package dev.lapwing.plan;

import dev.lapwing.naming.Signal;
import java.util.List;

/** A resolved condition. Levels in the base unit of the signal. */
public sealed interface PlannedCondition {
    /** The signals that it reads, each once. */
    List<Signal> signals();

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
    }

    record AnyOf(List<PlannedCondition> parts) implements PlannedCondition {
        @Override
        public List<Signal> signals() {
            return signalsOf(parts);
        }
    }

    private static List<Signal> signalsOf(List<PlannedCondition> parts) {
        return parts.stream()
                .flatMap(part -> part.signals().stream())
                .distinct()
                .toList();
    }
}
