package dev.lapwing.unit;

import java.util.stream.IntStream;

/**
 * Traction, cut by every cause that brakes, and given back only when, all causes gone, the power handle has been at
 * off. Notches go up at will and down only through off.
 */
final class TractionInterlock {
    private final int notchesMax;
    private final UnitWire[] wires;
    private final Delayed cut;
    private boolean waitsForOff = true;
    private int notch;

    /**
     * @param notchesMax greatest notch; 0 where the power handle is but on or off
     * @param seconds    from a cause to traction off, in s; a shorter cause is overlooked
     */
    TractionInterlock(int notchesMax, double seconds) {
        this.notchesMax = notchesMax;
        wires = IntStream.rangeClosed(1, notchesMax).mapToObj(UnitWire::notch).toArray(UnitWire[]::new);
        cut = new Delayed(seconds, 0);
    }

    /**
     * @param cause     whether anything forbids traction
     * @param powerNotch where the power handle stands, 0 for off
     * @param powered   whether there is a supply for its relays; without, it is off at once
     */
    void step(double nowSeconds, boolean cause, int powerNotch, boolean powered) {
        if (cut.follow(nowSeconds, cause) || !powered) {
            waitsForOff = true;
        } else if (powerNotch == 0 && !cause) {
            waitsForOff = false;
        }
        notch = powerNotch <= 0 ? 0 : Math.max(notch, Math.min(powerNotch, Math.max(1, notchesMax)));
    }

    /** The notch in force, 0 for none. */
    int notch() {
        return waitsForOff ? 0 : notch;
    }

    void drive(UnitOutputs out) {
        int now = notch();
        out.set(UnitWire.TRACTION, now > 0);
        for (int k = 0; k < wires.length; k++) {
            out.set(wires[k], now > k);
        }
    }
}
