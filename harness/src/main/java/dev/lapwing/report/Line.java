package dev.lapwing.report;

import dev.lapwing.naming.PressureKind;
import dev.lapwing.naming.Signal;

/**
 * How a sampled signal is drawn: vehicles differ by dashes and by the name at the line's end, kinds by panel and tint.
 *
 * @param css   class names
 * @param group what the line is called at its end
 * @param end   and which one of these it is; may be empty
 */
record Line(String css, String group, String end) {
    private static final int DASHES = 8;

    static Line of(Signal signal, boolean namedByPanel) {
        if (signal instanceof Signal.Pressure pressure) {
            String kind = tint(pressure.kind());
            return new Line(
                    "l " + kind + " d" + ((pressure.vehicle() - 1) % DASHES + 1),
                    namedByPanel ? "vehicle" : word(pressure.kind()),
                    Integer.toString(pressure.vehicle()));
        }
        if (signal instanceof Signal.SupplyVoltage supply) {
            return new Line("l su d" + (supply.name().equals("ep") ? 1 : 2), supply.name(), "");
        }
        if (signal instanceof Signal.Twin twin) {
            Line first = of(twin.of(), namedByPanel);
            return new Line(first.css, first.group, (first.end + " twin").strip());
        }
        return new Line("l an d1", namedByPanel ? "" : "handle", "");
    }

    private static String tint(PressureKind kind) {
        return switch (kind) {
            case BRAKE_PIPE -> "bp";
            case BRAKE_CYLINDER -> "bc";
            case AUXILIARY_RESERVOIR -> "ar";
            case MAIN_RESERVOIR_PIPE -> "mr";
            case SUPPLY_RESERVOIR -> "sr";
        };
    }

    private static String word(PressureKind kind) {
        return switch (kind) {
            case BRAKE_PIPE -> "pipe";
            case BRAKE_CYLINDER -> "cylinder";
            case AUXILIARY_RESERVOIR -> "auxiliary";
            case MAIN_RESERVOIR_PIPE -> "main";
            case SUPPLY_RESERVOIR -> "supply";
        };
    }
}
