package dev.lapwing.plant;

/**
 * A fault of the train wires. {@code behind} is the coupling behind that vehicle; a fault at a vehicle is on its
 * wire.
 */
public sealed interface WireFault {
    /** The wire is open at a coupling. */
    record Open(TrainWire wire, int behind) implements WireFault {}

    /** The coupling has this much resistance more, in ohm. */
    record Resistive(TrainWire wire, int behind, double ohms) implements WireFault {
        public Resistive {
            Require.notNegative("series resistance", ohms, "ohm");
        }
    }

    /** The wire is joined to a supply of this voltage against battery minus, through a resistance in ohm. */
    record ShortedToPlus(TrainWire wire, int vehicle, double volts, double ohms) implements WireFault {
        public ShortedToPlus {
            Require.positive("resistance of a short", ohms, "ohm");
        }
    }

    /** The wire is joined to battery minus through a resistance in ohm. */
    record ShortedToMinus(TrainWire wire, int vehicle, double ohms) implements WireFault {
        public ShortedToMinus {
            Require.positive("resistance of a short", ohms, "ohm");
        }
    }

    /** Two wires touch in a vehicle through a resistance in ohm. */
    record Bridged(TrainWire wire, TrainWire other, int vehicle, double ohms) implements WireFault {
        public Bridged {
            Require.positive("resistance of a bridge", ohms, "ohm");
            requireTwo(wire, other);
        }
    }

    /** Two wires change places at a coupling. */
    record Crossed(TrainWire wire, TrainWire other, int behind) implements WireFault {
        public Crossed {
            requireTwo(wire, other);
        }
    }

    private static void requireTwo(TrainWire wire, TrainWire other) {
        if (wire == other) {
            throw new IllegalArgumentException("the fault joins two different wires, got " + wire + " twice");
        }
    }
}
