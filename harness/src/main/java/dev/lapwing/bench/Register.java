package dev.lapwing.bench;

import java.util.Optional;

/**
 * Where a point is found on Modbus modules.
 *
 * @param point   the point's name
 * @param module  address of the module, 1 to 247
 * @param table   which of its tables
 * @param address within the table, 0 to 65535: as sent in a request, one less than in a numbering that begins at 1
 * @param contact what lies between an output's register and what it drives
 */
public record Register(String point, int module, Table table, int address, Contact contact) {
    public static final int MODULE_MAX = 247;
    public static final int ADDRESS_MAX = 65_535;

    /** A register of which nothing more is to be said. */
    public Register(String point, int module, Table table, int address) {
        this(point, module, table, address, Contact.AT_ONCE);
    }

    /**
     * How late a relay's contact follows its coil, in µs.
     *
     * @param operateUs when it is driven
     * @param releaseUs when it is let go (to count 0)
     * @param spreadUs  bound of how far either may be off
     */
    public record Contact(long operateUs, long releaseUs, long spreadUs) {
        public static final Contact AT_ONCE = new Contact(0, 0, 0);

        /** How late it follows when it is driven to that count. */
        long lateUs(int counts) {
            return counts == 0 ? releaseUs : operateUs;
        }
    }

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

        /** True for tables that a master drives. */
        public boolean driven() {
            return this == COIL || this == HOLDING_REGISTER;
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
