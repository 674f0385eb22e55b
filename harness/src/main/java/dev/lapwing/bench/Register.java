package dev.lapwing.bench;

import java.util.Optional;

/**
 * Where a point is found on Modbus modules.
 *
 * @param point   the point's name
 * @param module  address of the module, 1 to 247
 * @param table   which of its tables
 * @param address within the table, 0 to 65535: as sent in a request, one less than in a numbering that begins at 1
 */
public record Register(String point, int module, Table table, int address) {
    public static final int MODULE_MAX = 247;
    public static final int ADDRESS_MAX = 65_535;

    /** The primary tables of a module, as the Modbus Application Protocol V1.1b3 names them in its section 4.3. */
    public enum Table {
        COIL("coil"),
        DISCRETE_INPUT("discrete-input"),
        INPUT_REGISTER("input-register"),
        HOLDING_REGISTER("holding-register");

        private final String text;

        Table(String text) {
            this.text = text;
        }

        public String text() {
            return text;
        }

        /** The table in which points of that kind are; empty where modules have none for it. */
        public static Optional<Table> of(PointKind kind) {
            return switch (kind) {
                case DIGITAL_OUT -> Optional.of(COIL);
                case DIGITAL_IN -> Optional.of(DISCRETE_INPUT);
                case ANALOG_IN, COUNTER_IN -> Optional.of(INPUT_REGISTER);
                case ANALOG_OUT -> Optional.of(HOLDING_REGISTER);
                case PULSE_OUT, PWM_OUT -> Optional.empty();
            };
        }
    }
}
