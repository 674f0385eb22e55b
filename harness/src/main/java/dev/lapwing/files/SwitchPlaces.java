package dev.lapwing.files;

import dev.lapwing.naming.SwitchKind;

/** What may stand after the slash of a switch's key, by the kind of switch. */
final class SwitchPlaces {
    private static final String BEHIND = "behind-[1-9][0-9]?";

    private SwitchPlaces() {}

    /** A regular expression for the text after the slash; an empty one where there is none. */
    static String pattern(SwitchKind kind) {
        return switch (kind) {
            case DEADMAN, ACKNOWLEDGEMENT, MASTER_SWITCH -> "";
            case REVERSER -> "forward|reverse";
            case WIRE_FEED -> "[a-z][a-z0-9]*(-[a-z0-9]+)*";
            case ALARM_VALVE, CREW_VALVE -> "vehicle-[1-9][0-9]?";
            case HOSE_BURST, COCK -> "(brake-pipe|main-reservoir-pipe)-" + BEHIND;
            case PARTING -> BEHIND;
            case OTHER_CAB_CHARGE -> "far";
        };
    }

    /** A whole key, for a mistake to show. */
    static String example(SwitchKind kind) {
        String of = switch (kind) {
            case DEADMAN, ACKNOWLEDGEMENT, MASTER_SWITCH -> "";
            case REVERSER -> "/forward";
            case WIRE_FEED -> "/application";
            case ALARM_VALVE, CREW_VALVE -> "/vehicle-2";
            case HOSE_BURST, COCK -> "/brake-pipe-behind-2";
            case PARTING -> "/behind-2";
            case OTHER_CAB_CHARGE -> "/far";
        };
        return "'" + kind.text() + of + "'";
    }
}
