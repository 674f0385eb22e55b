package dev.lapwing.plan;

import dev.lapwing.naming.Ability;
import dev.lapwing.naming.Actuator;
import dev.lapwing.naming.PressureKind;
import dev.lapwing.naming.Signal;
import dev.lapwing.naming.SwitchKind;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.sequence.AlwaysProperty;
import java.util.List;

/**
 * What it takes to watch an always-on property.
 *
 * @param abilities what the unit must have
 * @param signals   wires and supplies that must be read
 * @param pressures pressures that must be read, at one vehicle at least
 * @param drives    what the bench must command, as the property speaks of it
 * @param figures   kinds of its figures, in the property's order
 */
record AlwaysDemand(
        List<Ability> abilities,
        List<Signal> signals,
        List<PressureKind> pressures,
        List<Actuator> drives,
        List<Dimension> figures) {

    static AlwaysDemand of(AlwaysProperty property) {
        return new AlwaysDemand(
                abilities(property), signals(property), pressures(property), drives(property), figures(property));
    }

    private static List<Ability> abilities(AlwaysProperty property) {
        return switch (property) {
            case APPLICATION_ONLY_WITH_HOLDING, EP_RELEASE_EMPTIES_THE_CYLINDER -> List.of(Ability.EP_BRAKE);
            case NO_TRACTION_WITHOUT_DEADMAN -> List.of(Ability.DEADMAN, Ability.TRACTION_INTERLOCK);
            case NO_CHARGE_OUT_OF_RELEASE, DUMP_EMPTIES_THE_PIPE -> List.of(Ability.AUTOMATIC_BRAKE);
            case VIGILANCE_STAGES_IN_ORDER -> List.of(Ability.VIGILANCE);
            case LAMP_ONLY_WITH_SUPPLY -> List.of(Ability.EP_SUPPLY_LAMP);
            case BENCH_ORDERS_REACH_A_CYLINDER -> List.of(Ability.EP_BRAKE);
            case CYLINDER_HOLDS_IN_LAP,
                    CYLINDER_BELOW_LIMIT,
                    BENCH_TWINS_AGREE,
                    BENCH_PIPES_AGREE,
                    BENCH_CYLINDERS_AGREE,
                    BENCH_AIR_FLOWS_DOWN,
                    BENCH_MAIN_RESERVOIRS_AGREE -> List.of();
        };
    }

    private static List<Signal> signals(AlwaysProperty property) {
        return switch (property) {
            case APPLICATION_ONLY_WITH_HOLDING -> List.of(new Signal.Wire("application"), new Signal.Wire("holding"));
            case BENCH_CYLINDERS_AGREE -> List.of(new Signal.Wire("application"));
            case BENCH_ORDERS_REACH_A_CYLINDER ->
                List.of(new Signal.Wire("application"), new Signal.Wire("holding"), new Signal.SupplyVoltage("ep"));
            case NO_TRACTION_WITHOUT_DEADMAN -> List.of(new Signal.Wire("traction"));
            case VIGILANCE_STAGES_IN_ORDER ->
                List.of(new Signal.Wire("warning-light"), new Signal.Wire("warning-sounder"));
            case LAMP_ONLY_WITH_SUPPLY -> List.of(new Signal.Wire("ep-supply-lamp"), new Signal.SupplyVoltage("ep"));
            default -> List.of();
        };
    }

    private static List<PressureKind> pressures(AlwaysProperty property) {
        return switch (property) {
            case NO_CHARGE_OUT_OF_RELEASE, DUMP_EMPTIES_THE_PIPE, VIGILANCE_STAGES_IN_ORDER ->
                List.of(PressureKind.BRAKE_PIPE);
            case CYLINDER_HOLDS_IN_LAP, CYLINDER_BELOW_LIMIT, BENCH_ORDERS_REACH_A_CYLINDER ->
                List.of(PressureKind.BRAKE_CYLINDER);
            case BENCH_PIPES_AGREE -> List.of(PressureKind.BRAKE_PIPE);
            case BENCH_CYLINDERS_AGREE, BENCH_AIR_FLOWS_DOWN ->
                List.of(PressureKind.BRAKE_PIPE, PressureKind.BRAKE_CYLINDER, PressureKind.AUXILIARY_RESERVOIR);
            case BENCH_MAIN_RESERVOIRS_AGREE -> List.of(PressureKind.MAIN_RESERVOIR_PIPE);
            case EP_RELEASE_EMPTIES_THE_CYLINDER -> List.of(PressureKind.BRAKE_PIPE, PressureKind.BRAKE_CYLINDER);
            default -> List.of();
        };
    }

    private static List<Actuator> drives(AlwaysProperty property) {
        Actuator handle = new Actuator.Handle();
        return switch (property) {
            case NO_TRACTION_WITHOUT_DEADMAN ->
                List.of(
                        new Actuator.Switch(SwitchKind.DEADMAN, ""),
                        new Actuator.Switch(SwitchKind.REVERSER, "forward"),
                        new Actuator.Switch(SwitchKind.REVERSER, "reverse"));
            case NO_CHARGE_OUT_OF_RELEASE -> List.of(handle, new Actuator.Switch(SwitchKind.MASTER_SWITCH, ""));
            case CYLINDER_HOLDS_IN_LAP, DUMP_EMPTIES_THE_PIPE, EP_RELEASE_EMPTIES_THE_CYLINDER -> List.of(handle);
            default -> List.of();
        };
    }

    private static List<Dimension> figures(AlwaysProperty property) {
        return switch (property) {
            case APPLICATION_ONLY_WITH_HOLDING,
                    NO_TRACTION_WITHOUT_DEADMAN,
                    VIGILANCE_STAGES_IN_ORDER,
                    BENCH_ORDERS_REACH_A_CYLINDER -> List.of(Dimension.TIME);
            case CYLINDER_HOLDS_IN_LAP -> List.of(Dimension.LEAK_RATE);
            case NO_CHARGE_OUT_OF_RELEASE,
                    CYLINDER_BELOW_LIMIT,
                    EP_RELEASE_EMPTIES_THE_CYLINDER,
                    BENCH_PIPES_AGREE,
                    BENCH_CYLINDERS_AGREE,
                    BENCH_AIR_FLOWS_DOWN,
                    BENCH_MAIN_RESERVOIRS_AGREE -> List.of(Dimension.PRESSURE);
            case DUMP_EMPTIES_THE_PIPE -> List.of(Dimension.TIME, Dimension.PRESSURE);
            case LAMP_ONLY_WITH_SUPPLY -> List.of(Dimension.VOLTAGE, Dimension.TIME);
            case BENCH_TWINS_AGREE -> List.of();
        };
    }
}
