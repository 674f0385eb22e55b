package dev.lapwing.unit;

import dev.lapwing.plant.CabValve;

/**
 * What a controller drives after a step. One object lives as long as its bench. A new one is a dead, closed cab: every
 * wire off, the brake valve in lap.
 */
public final class UnitOutputs {
    private final boolean[] on = new boolean[UnitWire.values().length];
    private CabValve valve = CabValve.LAP;

    /**
     * Whether a wire is on. Of {@code APPLICATION} and {@code HOLDING}: whether the contact to the EP supply is
     * closed.
     */
    public boolean isOn(UnitWire wire) {
        return on[wire.ordinal()];
    }

    /**
     * What the driver's brake valve does. The same object as long as nothing changes, so that a bench may compare by
     * ==.
     */
    public CabValve valve() {
        return valve;
    }

    void set(UnitWire wire, boolean state) {
        on[wire.ordinal()] = state;
    }

    void drive(CabValve now) {
        valve = now;
    }
}
