package dev.lapwing.bench;

/**
 * The tube between a tapping and its transducer: what happens at the tapping reaches the transducer later.
 *
 * @param delayUs  how much later, in µs; 0 without a tube
 * @param withinUs bound of the error of that, in µs
 */
public record Tube(int delayUs, int withinUs) {
    public static final Tube NONE = new Tube(0, 0);
}
