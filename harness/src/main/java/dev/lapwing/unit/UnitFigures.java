package dev.lapwing.unit;

import static dev.lapwing.fixture.SimulationFigure.*;

import dev.lapwing.fixture.SimulationFigure;
import java.util.Collections;
import java.util.EnumSet;
import java.util.Map;
import java.util.Set;

/** The drawn figures of one controller, each in its base unit. */
record UnitFigures(Map<SimulationFigure, Double> drawn) {
    static final Set<SimulationFigure> CLASSIC = Collections.unmodifiableSet(EnumSet.of(
            FEED_PRESSURE,
            FULL_SERVICE_PRESSURE,
            EP_FULL_PRESSURE,
            EP_START_SHARE,
            LAPPING_BAND_APPLY,
            LAPPING_BAND_RELEASE,
            FEEDBACK_ERROR,
            LAP_DRIFT,
            CONTACTOR_TIME,
            TRACTION_CUT_TIME,
            TRACTION_CUT_PRESSURE,
            TRACTION_RESTORE_PRESSURE,
            TRACTION_CUT_DEMAND,
            REVERSER_PRESSURE,
            DEADMAN_TIME,
            LAMP_THRESHOLD,
            LAMP_TIME,
            EMERGENCY_TIME,
            HANDLE_DETENT,
            MAINTAIN_PRESSURE,
            DUMPED_PRESSURE,
            STANDSTILL_SPEED,
            CONTROL_MINIMUM));

    static final Set<SimulationFigure> RETROFIT = retrofit();

    private static Set<SimulationFigure> retrofit() {
        Set<SimulationFigure> all = EnumSet.copyOf(CLASSIC);
        all.addAll(EnumSet.of(
                VIGILANCE_CYCLE,
                VIGILANCE_LIGHT,
                VIGILANCE_SOUNDER,
                VIGILANCE_BRAKED_PRESSURE,
                BOOT_TIME,
                HOLD_UP_TIME,
                SUPPLY_ALARM_TIME,
                SENSOR_DISAGREEMENT,
                SENSOR_FAULT_TIME,
                SENSOR_DIFFERENCE,
                SENSOR_NOISE,
                ACTIVITY_ANGLE,
                SCAN_TIME,
                LAPPING_LEAD));
        return Collections.unmodifiableSet(all);
    }

    UnitFigures {
        drawn = Map.copyOf(drawn);
    }

    /** In the base unit of the figure's dimension. */
    double of(SimulationFigure figure) {
        Double value = drawn.get(figure);
        if (value == null) {
            throw new IllegalArgumentException("the simulated controller needs " + figure.path());
        }
        return value;
    }
}
