package dev.lapwing.files;

import dev.lapwing.fixture.Simulation.ControllerKind;
import dev.lapwing.fixture.SimulationFigure;
import java.util.EnumSet;
import java.util.Set;

/** Which controller uses which figures of a simulation. */
final class ControllerFigures {
    private static final Set<SimulationFigure> ELECTRONIC_ONLY = EnumSet.of(
            SimulationFigure.VIGILANCE_CYCLE,
            SimulationFigure.VIGILANCE_LIGHT,
            SimulationFigure.VIGILANCE_SOUNDER,
            SimulationFigure.VIGILANCE_BRAKED_PRESSURE,
            SimulationFigure.BOOT_TIME,
            SimulationFigure.HOLD_UP_TIME,
            SimulationFigure.SUPPLY_ALARM_TIME,
            SimulationFigure.SENSOR_DISAGREEMENT);

    private ControllerFigures() {}

    static boolean needs(ControllerKind controller, SimulationFigure figure) {
        return controller == ControllerKind.RETROFIT || !ELECTRONIC_ONLY.contains(figure);
    }
}
