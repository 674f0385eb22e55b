package dev.lapwing.unit;

import static dev.lapwing.fixture.SimulationFigure.*;

import dev.lapwing.fixture.Design;
import dev.lapwing.fixture.Handle;
import dev.lapwing.fixture.Simulation.ControllerKind;
import dev.lapwing.fixture.SimulationFigure;
import dev.lapwing.fixture.Wiring;
import dev.lapwing.naming.Ability;
import dev.lapwing.naming.DesignFlag;
import dev.lapwing.naming.DesignOption;
import dev.lapwing.plant.ReferenceTrain;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SplittableRandom;

/** The figures that the controllers of these tests are made of: round ones, common practice, no source. */
final class TestUnits {
    static final double PSI = ReferenceTrain.PSI;
    static final double UN = ReferenceTrain.UN;

    static final double RELEASE = 0;
    static final double FULL_EP = 40;
    static final double LAP = 55;
    static final double FULL_SERVICE = 85;
    static final double EMERGENCY = 105;

    static final Handle HANDLE = new Handle(
            Map.of("release", 0.0, "full-ep", 40.0, "lap", 55.0, "full-service", 85.0, "emergency", 105.0),
            Map.of(
                    "ep-application", new Handle.Arc("release", "full-ep"),
                    "automatic-application", new Handle.Arc("lap", "full-service")));

    private static final Set<DesignOption> USUAL = EnumSet.of(
            DesignOption.EP_KEPT,
            DesignOption.EXHAUSTS_SEPARATE,
            DesignOption.PIPE_MAINTAINED,
            DesignOption.DEADMAN_INSTANT,
            DesignOption.REPRESS_DOES_NOT_STOP_DUMP,
            DesignOption.EMERGENCY_LATCHED,
            DesignOption.VIGILANCE_RESTS_AT_STANDSTILL,
            DesignOption.VIGILANCE_RESTS_WHILE_BRAKED,
            DesignOption.VIGILANCE_ACT_COUNTS_AGAIN);

    private TestUnits() {}

    /** The usual design but for what is stated. */
    static Design design(DesignOption... stated) {
        Set<DesignOption> options = EnumSet.copyOf(USUAL);
        for (DesignOption option : stated) {
            DesignFlag flag = option.flag();
            options.removeIf(other -> other.flag() == flag);
            options.add(option);
        }
        return new Design(options);
    }

    static Wiring wiring(DesignOption... stated) {
        return new Wiring(4, UN, HANDLE, 4, List.of(), EnumSet.allOf(Ability.class), design(stated));
    }

    static Map<SimulationFigure, Double> figures(ControllerKind kind) {
        Map<SimulationFigure, Double> all = new EnumMap<>(SimulationFigure.class);
        all.put(FEED_PRESSURE, 70 * PSI);
        all.put(FULL_SERVICE_PRESSURE, 50 * PSI);
        all.put(MAINTAIN_PRESSURE, 55 * PSI);
        all.put(EP_FULL_PRESSURE, 50 * PSI);
        all.put(EP_START_SHARE, 0.0);
        all.put(LAPPING_BAND_APPLY, PSI);
        all.put(LAPPING_BAND_RELEASE, PSI);
        all.put(FEEDBACK_ERROR, 0.0);
        all.put(LAP_DRIFT, 0.0);
        all.put(CONTACTOR_TIME, 0.008);
        all.put(TRACTION_CUT_TIME, 0.060);
        all.put(TRACTION_CUT_PRESSURE, 50 * PSI);
        all.put(TRACTION_RESTORE_PRESSURE, 62 * PSI);
        all.put(TRACTION_CUT_DEMAND, 4 * PSI);
        all.put(REVERSER_PRESSURE, 60 * PSI);
        all.put(DEADMAN_TIME, 0.080);
        all.put(DUMPED_PRESSURE, 9 * PSI);
        all.put(LAMP_THRESHOLD, 0.75);
        all.put(LAMP_TIME, 0.100);
        all.put(EMERGENCY_TIME, 0.030);
        all.put(HANDLE_DETENT, 2.0);
        all.put(STANDSTILL_SPEED, 3 / 3.6);
        all.put(CONTROL_MINIMUM, 0.6);
        if (kind == ControllerKind.RETROFIT) {
            retrofit(all);
        }
        return all;
    }

    private static void retrofit(Map<SimulationFigure, Double> all) {
        all.put(CONTACTOR_TIME, 0.003);
        all.put(VIGILANCE_CYCLE, 30.0);
        all.put(VIGILANCE_LIGHT, 2.5);
        all.put(VIGILANCE_SOUNDER, 2.5);
        all.put(VIGILANCE_BRAKED_PRESSURE, 37 * PSI);
        all.put(BOOT_TIME, 3.0);
        all.put(HOLD_UP_TIME, 0.020);
        all.put(SUPPLY_ALARM_TIME, 0.300);
        all.put(SENSOR_DISAGREEMENT, 5.0);
        all.put(SENSOR_FAULT_TIME, 0.200);
        all.put(SENSOR_DIFFERENCE, 0.0);
        all.put(SENSOR_NOISE, 0.1);
        all.put(ACTIVITY_ANGLE, 3.0);
        all.put(SCAN_TIME, 0.005);
        all.put(LAPPING_LEAD, 0.055);
    }

    static ControllerUnderTest unit(ControllerKind kind, DesignOption... stated) {
        return unit(kind, Map.of(), stated);
    }

    /** A controller of the usual figures but for those. */
    static ControllerUnderTest unit(
            ControllerKind kind, Map<SimulationFigure, Double> figures, DesignOption... stated) {
        Map<SimulationFigure, Double> all = figures(kind);
        all.putAll(figures);
        return ControllerUnderTest.of(kind, wiring(stated), all, new SplittableRandom(1));
    }

    /** The angle at a share of the EP arc, in degrees. */
    static double ep(double share) {
        return HANDLE.angle("ep-application", share).orElseThrow();
    }

    /** The angle at a share of the arc of the automatic brake, in degrees. */
    static double automatic(double share) {
        return HANDLE.angle("automatic-application", share).orElseThrow();
    }
}
