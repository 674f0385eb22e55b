package dev.lapwing.plant;

import java.util.List;

/** One pipe's hoses and cocks. The cock behind a vehicle stands ahead of its hose. */
final class Couplings {
    private static final Orifice SHUT = new Orifice(0, 0);
    private static final int SLOTS = 2;

    private final PipeLine pipe;
    private final Vents vents;
    private final List<VehicleSpec> specs;
    private final boolean[] burst;
    private final boolean[] shut;
    private final boolean[] parted;

    Couplings(PipeLine pipe, List<VehicleSpec> specs, double kelvin) {
        this.pipe = pipe;
        this.specs = specs;
        int count = specs.size();
        vents = new Vents(SLOTS * count, kelvin);
        burst = new boolean[count];
        shut = new boolean[count];
        parted = new boolean[count];
    }

    void burst(int behind, boolean now) {
        burst[behind] = now;
        update(behind);
    }

    void shut(int behind, boolean now) {
        shut[behind] = now;
        update(behind);
    }

    void part(int behind, boolean now) {
        parted[behind] = now;
        update(behind);
    }

    private void update(int k) {
        boolean last = k == specs.size() - 1;
        if (!last) {
            pipe.join(k, !shut[k] && !parted[k]);
        }
        boolean leading = (burst[k] || parted[k]) && !shut[k];
        Orifice rear = specs.get(k).vents().openHose();
        vents.set(SLOTS * k, pipe.rearEnd(k), leading ? rear : SHUT, 1);
        if (!last) {
            // A burst hose behind a shut cock still hangs on the next vehicle's pipe.
            boolean trailing = parted[k] || burst[k] && shut[k];
            Orifice front = parted[k] ? specs.get(k + 1).vents().openHose() : rear;
            vents.set(SLOTS * k + 1, pipe.frontEnd(k + 1), trailing ? front : SHUT, 1);
        }
    }

    double vent(double ambientPascals, double seconds) {
        return vents.vent(pipe, ambientPascals, seconds);
    }
}
