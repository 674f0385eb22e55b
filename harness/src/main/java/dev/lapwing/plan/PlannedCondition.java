package dev.lapwing.plan;

import dev.lapwing.naming.Signal;
import java.util.List;

/** A resolved condition. Levels in the base unit of the signal. */
public sealed interface PlannedCondition {
    record Above(Signal signal, double level) implements PlannedCondition {}

    record Below(Signal signal, double level) implements PlannedCondition {}

    record WireIs(Signal.Wire wire, boolean on) implements PlannedCondition {}

    record AllOf(List<PlannedCondition> parts) implements PlannedCondition {}

    record AnyOf(List<PlannedCondition> parts) implements PlannedCondition {}
}
