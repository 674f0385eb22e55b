package dev.lapwing.plan;

import dev.lapwing.finding.Limit;
import dev.lapwing.finding.Mark;
import dev.lapwing.naming.PressureKind;
import dev.lapwing.naming.Signal;
import dev.lapwing.sequence.AlwaysProperty;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;

/**
 * An always-on property with its figures.
 *
 * @param property which
 * @param limits   by figure name; a plain value stands as a limit of at most that value
 */
public record Throughout(AlwaysProperty property, Map<String, Limit> limits) {

    /** Id of its finding, unlike that of any expectation. */
    public String id() {
        return id(property);
    }

    /**
     * Signals that a case of it is told from: every one that the property speaks of, and of each kind of pressure those
     * that the case marks, or all where it marks none.
     *
     * @param marks   of the case
     * @param carried signals of the bench
     */
    public List<Signal> read(List<Mark> marks, Collection<Signal> carried) {
        AlwaysDemand demand = AlwaysDemand.of(property);
        List<Signal> read = new ArrayList<>(demand.signals());
        for (PressureKind kind : demand.pressures()) {
            List<Signal> all = carried.stream()
                    .filter(signal -> signal instanceof Signal.Pressure pressure && pressure.kind() == kind)
                    .toList();
            boolean marked = all.stream()
                    .anyMatch(signal ->
                            marks.stream().anyMatch(mark -> mark.signal().equals(signal.key())));
            if (!marked) {
                read.addAll(all);
            }
        }
        return read;
    }

    /** Id of the finding on a property, whether it is watched or left out. */
    public static String id(AlwaysProperty property) {
        return "throughout/" + property.text();
    }
}
