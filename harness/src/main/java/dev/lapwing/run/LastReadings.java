package dev.lapwing.run;

import dev.lapwing.measure.Recording;
import dev.lapwing.measure.Sampled;
import dev.lapwing.measure.Switched;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.PlannedCondition;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.Quantity;
import dev.lapwing.quantity.Unit;
import dev.lapwing.signal.Trace;
import java.util.LinkedHashSet;
import java.util.Optional;

/** What the signals of a condition read at last, in words. */
final class LastReadings {
    private static final int DIGITS = 4;

    private LastReadings() {}

    /** Begins with a semicolon; empty if nothing was read. */
    static String of(PlannedCondition condition, Recording recording) {
        StringBuilder text = new StringBuilder();
        for (Signal signal : new LinkedHashSet<>(condition.signals())) {
            text.append(text.isEmpty() ? "; " : ", ").append(signal.spoken()).append(reading(signal, recording));
        }
        return text.toString();
    }

    private static String reading(Signal signal, Recording recording) {
        if (signal instanceof Signal.Wire wire) {
            Optional<Switched> switched = recording.switched(wire);
            return switched.isEmpty()
                    ? " was never read"
                    : switched.get().edges().last() ? " was on" : " was off";
        }
        Optional<Trace> trace = recording.sampled(signal).map(Sampled::trace);
        if (trace.isEmpty() || trace.get().size() == 0) {
            return " was never read";
        }
        double value = trace.get().value(trace.get().size() - 1);
        return " stood at " + written(new Quantity(value, signal.dimension()));
    }

    // Both units of pressure, so that the record reads the same whatever people have pressures shown in.
    private static String written(Quantity value) {
        if (value.dimension() == Dimension.PRESSURE) {
            return value.print(Unit.PSI, DIGITS) + " (" + value.print(Unit.KILOPASCAL, DIGITS) + ")";
        }
        return value.print(Unit.of(value.dimension()).get(0), DIGITS);
    }
}
