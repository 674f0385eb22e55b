package dev.lapwing.plant;

/** Openings of one pipe to atmosphere; only those that are open cost time in a step. */
final class Vents {
    private final Ports ports;
    private final int[] cell;
    private final boolean[] open;
    private final int[] active;
    private int activeCount;

    Vents(int slots, double kelvin) {
        ports = new Ports(slots, kelvin);
        cell = new int[slots];
        open = new boolean[slots];
        active = new int[slots];
    }

    /** Says what stands in a slot: an orifice open to some factor, at a cell of the pipe. */
    void set(int slot, int atCell, Orifice orifice, double factor) {
        ports.set(slot, orifice, factor);
        cell[slot] = atCell;
        open[slot] = !ports.shut(slot);
        activeCount = 0;
        for (int i = 0; i < open.length; i++) {
            if (open[i]) {
                active[activeCount++] = i;
            }
        }
    }

    /**
     * Lets air out of the pipe for a step, and returns how much in kg: negative where it comes in, as after a burst,
     * when the air that rushes out leaves a little less than atmosphere behind.
     */
    double vent(PipeLine pipe, double ambientPascals, double seconds) {
        double vented = 0;
        for (int i = 0; i < activeCount; i++) {
            int slot = active[i];
            int at = cell[slot];
            double mass = ports.exchange(slot, 1, pipe.pascals[at], ambientPascals, pipe.slope[at], seconds);
            pipe.mass[at] -= mass;
            vented += mass;
        }
        return vented;
    }
}
