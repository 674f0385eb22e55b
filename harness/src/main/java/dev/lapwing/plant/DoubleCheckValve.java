package dev.lapwing.plant;

import java.util.Arrays;

/**
 * The double check valves that join each cylinder to the higher of its two brakes. The pipes on either side are short
 * enough to hold no air of their own; what stays trapped in the side that is cut off is remembered as a pressure.
 */
final class DoubleCheckValve {
    /** Whether the cylinder stands joined to the EP side; else to the triple valve. */
    final boolean[] onEp;

    private final double[] trappedEp;
    private final double[] trappedTriple;

    DoubleCheckValve(int count) {
        onEp = new boolean[count];
        trappedEp = new double[count];
        trappedTriple = new double[count];
    }

    /** Every cylinder on its triple valve, both sides at an absolute pressure. */
    void reset(double absolutePascals) {
        Arrays.fill(onEp, false);
        Arrays.fill(trappedEp, absolutePascals);
        Arrays.fill(trappedTriple, absolutePascals);
    }

    /**
     * Moves one valve. All pressures are absolute, in Pa.
     *
     * @param cylinder  pressure of the cylinder
     * @param epSide    what the EP side offers: its source, atmosphere, or {@link Double#NaN} where it is shut in
     * @param tripleSide what the triple valve offers, likewise
     */
    void move(int k, double cylinder, double epSide, double tripleSide) {
        // NaN compares false, so a shut-in side keeps what it held.
        double ep = epSide >= 0 ? epSide : trappedEp[k];
        double triple = tripleSide >= 0 ? tripleSide : trappedTriple[k];
        if (onEp[k]) {
            trappedEp[k] = cylinder;
            trappedTriple[k] = triple;
            // A shut-in or exhausting side that is joined to the cylinder stands at the cylinder's pressure.
            onEp[k] = !(triple > Math.max(cylinder, epSide >= 0 ? epSide : 0));
        } else {
            trappedTriple[k] = cylinder;
            trappedEp[k] = ep;
            onEp[k] = ep > Math.max(cylinder, tripleSide >= 0 ? tripleSide : 0);
        }
    }
}
