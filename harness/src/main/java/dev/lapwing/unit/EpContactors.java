package dev.lapwing.unit;

/**
 * The two contactors that put the EP supply on the train wires. They are interlocked so that application is never
 * closed without holding: holding closes first, and opens last.
 */
final class EpContactors {
    private final Delayed application;
    private final Delayed holding;

    /** @param seconds from a coil's voltage to its contact, and back, in s */
    EpContactors(double seconds) {
        application = new Delayed(seconds);
        holding = new Delayed(seconds);
    }

    /** @param powered whether there is a supply for their coils */
    void step(double nowSeconds, EpCommand command, boolean powered, UnitOutputs out) {
        boolean apply = powered && command == EpCommand.APPLY;
        boolean hold = powered && command != EpCommand.RELEASE;
        out.set(UnitWire.APPLICATION, application.follow(nowSeconds, apply && holding.isOn()));
        out.set(UnitWire.HOLDING, holding.follow(nowSeconds, hold || application.isOn()));
    }
}
