package dev.lapwing.naming;

import dev.lapwing.quantity.Dimension;

/** Something that the bench drives, by hand's stead or on the train's behalf. Vehicles are counted from 1. */
public sealed interface Actuator {

    /** The driver's brake handle, driven to an angle in degrees. */
    record Handle() implements Actuator {
        @Override
        public String key() {
            return "handle";
        }

        @Override
        public Dimension dimension() {
            return Dimension.ANGLE;
        }
    }

    /** The power handle, driven to a notch, 0 for off. */
    record PowerHandle() implements Actuator {
        @Override
        public String key() {
            return "power-handle";
        }

        @Override
        public Dimension dimension() {
            return Dimension.COUNT;
        }
    }

    /** The train's speed as the unit is told it, in m/s. */
    record Speed() implements Actuator {
        @Override
        public String key() {
            return "speed";
        }

        @Override
        public Dimension dimension() {
            return Dimension.SPEED;
        }
    }

    /** A supply voltage of the bench, {@code ep} or {@code control}, in V. */
    record Supply(String name) implements Actuator {
        @Override
        public String key() {
            return "supply/" + name;
        }

        @Override
        public Dimension dimension() {
            return Dimension.VOLTAGE;
        }
    }

    /** Something with two states, 0 and 1. */
    record Switch(SwitchKind kind, String of) implements Actuator {
        @Override
        public String key() {
            return of.isEmpty() ? kind.text() : kind.text() + "/" + of;
        }

        @Override
        public Dimension dimension() {
            return Dimension.COUNT;
        }
    }

    /** Short, unique and stable: names the actuator in bench files, plans and records. */
    String key();

    /** What its figures are of; a switch counts 0 or 1, a notch handle its notch. */
    Dimension dimension();

    /** True where it has two states only. */
    default boolean digital() {
        return this instanceof Switch;
    }
}
