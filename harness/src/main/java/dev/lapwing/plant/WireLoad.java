package dev.lapwing.plant;

/**
 * A load other than a magnet valve, such as a lamp, between a wire and the return.
 *
 * @param vehicle index of the vehicle it is on
 * @param ohms    its resistance, in ohm
 */
public record WireLoad(TrainWire wire, int vehicle, double ohms) {
    public WireLoad {
        Require.positive("load resistance", ohms, "ohm");
    }
}
