package dev.lapwing.plant;

import java.util.List;

/**
 * The magnet valves of one wire, with the delay of their armatures. A pulse or gap shorter than the delay moves
 * nothing.
 */
final class MagnetValves {
    /** Whether each valve stands in its energised position. */
    final boolean[] energised;

    private final List<MagnetValveSpec> specs;
    private final boolean[] moving;
    private final double[] remainingSeconds;
    private int movingCount;

    MagnetValves(List<MagnetValveSpec> specs) {
        this.specs = List.copyOf(specs);
        energised = new boolean[specs.size()];
        moving = new boolean[specs.size()];
        remainingSeconds = new double[specs.size()];
    }

    /** Takes note of the voltage now at a coil, in V of either sign. */
    void coil(int k, double volts) {
        MagnetValveSpec spec = specs.get(k);
        double size = Math.abs(volts);
        boolean leaves = energised[k] ? size < spec.dropOutVolts() : size >= spec.pickUpVolts();
        if (leaves && !moving[k]) {
            moving[k] = true;
            movingCount++;
            remainingSeconds[k] = energised[k] ? spec.dropOutSeconds() : spec.pickUpSeconds();
        } else if (!leaves && moving[k]) {
            moving[k] = false;
            movingCount--;
        }
    }

    /** Moves the armatures whose delay has run out, at the beginning of a step. */
    void step(double seconds) {
        if (movingCount == 0) {
            return;
        }
        // A thousandth of a step absorbs the rounding of a delay that is a whole number of steps.
        double due = seconds * 1e-3;
        for (int k = 0; k < moving.length; k++) {
            if (moving[k] && remainingSeconds[k] <= due) {
                energised[k] = !energised[k];
                moving[k] = false;
                movingCount--;
            } else if (moving[k]) {
                remainingSeconds[k] -= seconds;
            }
        }
    }
}
