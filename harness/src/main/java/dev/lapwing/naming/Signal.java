package dev.lapwing.naming;

import dev.lapwing.quantity.Dimension;

/** Something that the bench reads. The vehicle is counted from 1 at the cab under test. */
public sealed interface Signal {

    /** A gauge pressure at a vehicle. */
    record Pressure(PressureKind kind, int vehicle) implements Signal {
        @Override
        public String key() {
            return kind.text() + "@" + vehicle;
        }

        @Override
        public String spoken() {
            return kind.text().replace('-', ' ') + " at vehicle " + vehicle;
        }

        @Override
        public Dimension dimension() {
            return Dimension.PRESSURE;
        }
    }

    /** A wire of the unit under test (train wire, lamp, sounder, traction): on or off, read at its connector. */
    record Wire(String name) implements Signal {
        @Override
        public String key() {
            return "wire/" + name;
        }

        @Override
        public String spoken() {
            return name.replace('-', ' ') + " wire";
        }

        @Override
        public Dimension dimension() {
            return Dimension.COUNT;
        }
    }

    /** A measured supply voltage, such as that of the EP supply, at the unit's connector. */
    record SupplyVoltage(String name) implements Signal {
        @Override
        public String key() {
            return "supply/" + name;
        }

        @Override
        public String spoken() {
            return name.replace('-', ' ') + " supply voltage";
        }

        @Override
        public Dimension dimension() {
            return Dimension.VOLTAGE;
        }
    }

    /** The handle's measured angle. */
    record HandleAngle() implements Signal {
        @Override
        public String key() {
            return "handle-angle";
        }

        @Override
        public String spoken() {
            return "handle angle";
        }

        @Override
        public Dimension dimension() {
            return Dimension.ANGLE;
        }
    }

    /**
     * A second transducer on a signal that has a level. The signal is measured by the first one; this one measures
     * nothing, and must agree with it.
     */
    record Twin(Signal of) implements Signal {
        /** What its key ends with, behind the key of the signal. */
        public static final String SUFFIX = "/twin";

        public Twin {
            if (of.digital() || of instanceof Twin) {
                throw new IllegalArgumentException(of.key() + " has no twin");
            }
        }

        @Override
        public String key() {
            return of.key() + SUFFIX;
        }

        @Override
        public String spoken() {
            return "twin transducer of " + of.spoken();
        }

        @Override
        public Dimension dimension() {
            return of.dimension();
        }
    }

    /** Short, unique and stable: names the signal in bench files, plans and records, {@code brake-cylinder@4}. */
    String key();

    /** As a person says it: {@code brake cylinder at vehicle 4}. */
    String spoken();

    /** What its figures are of; a wire counts 0 or 1. */
    Dimension dimension();

    /** True where the bench reports edges and not samples. */
    default boolean digital() {
        return this instanceof Wire;
    }
}
