package dev.lapwing.report;

import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import dev.lapwing.plan.PlannedCondition;
import java.util.stream.Stream;

/** Which signals a check looks at. */
final class CheckedSignals {
    private CheckedSignals() {}

    static Stream<Signal> of(Check check) {
        if (check instanceof Check.SettledLevel c) {
            return Stream.of(c.signal());
        } else if (check instanceof Check.Leak c) {
            return Stream.of(c.signal());
        } else if (check instanceof Check.Crossing c) {
            return Stream.of(c.signal());
        } else if (check instanceof Check.Stays c) {
            return Stream.of(c.signal());
        } else if (check instanceof Check.WireSwitches c) {
            return Stream.of(c.wire());
        } else if (check instanceof Check.Pulses c) {
            return Stream.of(c.wire());
        } else if (check instanceof Check.NeverHolds c) {
            return of(c.condition());
        } else if (check instanceof Check.ComesBefore c) {
            return Stream.concat(of(c.first()), of(c.then()));
        } else if (check instanceof Check.Agreement c) {
            return Stream.of(c.signal(), c.with());
        } else if (check instanceof Check.Movement c) {
            return Stream.of(c.signal());
        } else if (check instanceof Check.Repeat c) {
            return Stream.of(c.signal());
        } else if (check instanceof Check.Change c) {
            return Stream.of(c.signal());
        }
        return Stream.empty();
    }

    private static Stream<Signal> of(PlannedCondition condition) {
        if (condition instanceof PlannedCondition.Above c) {
            return Stream.of(c.signal());
        } else if (condition instanceof PlannedCondition.Below c) {
            return Stream.of(c.signal());
        } else if (condition instanceof PlannedCondition.WireIs c) {
            return Stream.of(c.wire());
        } else if (condition instanceof PlannedCondition.AllOf c) {
            return c.parts().stream().flatMap(CheckedSignals::of);
        } else if (condition instanceof PlannedCondition.AnyOf c) {
            return c.parts().stream().flatMap(CheckedSignals::of);
        }
        return Stream.empty();
    }
}
