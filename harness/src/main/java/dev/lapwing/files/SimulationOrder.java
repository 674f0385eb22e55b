package dev.lapwing.files;

import dev.lapwing.fixture.Simulation.Spread;
import dev.lapwing.fixture.SimulationFigure;
import dev.lapwing.source.Place;
import java.util.List;
import java.util.Map;

/** Figures of a simulation of which one must stay below the other, whatever is drawn inside their tolerances. */
final class SimulationOrder {
    private record Order(SimulationFigure lower, SimulationFigure upper) {}

    private static final List<Order> ORDERS = List.of(
            new Order(SimulationFigure.PISTON_STARTS, SimulationFigure.PISTON_ENDS),
            new Order(SimulationFigure.VALVE_DROP_OUT, SimulationFigure.VALVE_PICK_UP),
            new Order(SimulationFigure.TRIPLE_LAP_DIFFERENCE, SimulationFigure.TRIPLE_REAPPLY_DIFFERENCE),
            new Order(SimulationFigure.TRIPLE_REAPPLY_DIFFERENCE, SimulationFigure.TRIPLE_APPLY_DIFFERENCE),
            new Order(SimulationFigure.GOVERNOR_CUT_IN, SimulationFigure.GOVERNOR_CUT_OUT),
            new Order(SimulationFigure.TRACTION_CUT_PRESSURE, SimulationFigure.TRACTION_RESTORE_PRESSURE));

    private SimulationOrder() {}

    static void check(Map<SimulationFigure, Spread> figures, Map<SimulationFigure, Place> places, Reading reading) {
        for (Order order : ORDERS) {
            Spread lower = figures.get(order.lower);
            Spread upper = figures.get(order.upper);
            boolean both = lower != null && upper != null;
            if (both && lower.nominal() + lower.halfWidth() >= upper.nominal() - upper.halfWidth()) {
                String found =
                        "'" + key(order.upper) + "' is not above '" + key(order.lower) + "' with their tolerances";
                reading.mistake(places.get(order.upper), found);
            }
        }
    }

    private static String key(SimulationFigure figure) {
        return figure.path().substring(figure.path().indexOf('.') + 1);
    }
}
