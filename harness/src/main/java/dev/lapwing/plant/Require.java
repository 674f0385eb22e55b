package dev.lapwing.plant;

/** Checks on figures of a specification, each with a message that names the figure, its value and its unit. */
final class Require {
    private Require() {}

    static double positive(String what, double value, String unit) {
        if (!(value > 0 && value < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException(what + " must be finite and above zero, got " + value + " " + unit);
        }
        return value;
    }

    static double notNegative(String what, double value, String unit) {
        if (!(value >= 0 && value < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException(what + " must be finite and not negative, got " + value + " " + unit);
        }
        return value;
    }

    static double share(String what, double value) {
        if (!(value >= 0 && value <= 1)) {
            throw new IllegalArgumentException(what + " must lie in 0..1, got " + value);
        }
        return value;
    }

    static int index(String what, int value, int bound) {
        if (value < 0 || value >= bound) {
            throw new IllegalArgumentException(what + " must lie in 0.." + (bound - 1) + ", got " + value);
        }
        return value;
    }
}
