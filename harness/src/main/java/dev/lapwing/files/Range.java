package dev.lapwing.files;

import dev.lapwing.quantity.Dimension;

/**
 * The values outside which a figure is surely mistyped, in the base unit of its dimension. Wide on purpose; common
 * practice, no source.
 */
record Range(double least, double most) {
    /** Any figure of that kind, among them differences and rates of either sign. */
    static Range of(Dimension dimension) {
        return switch (dimension) {
            case PRESSURE -> new Range(-2e6, 2e6);
            case ABSOLUTE_PRESSURE -> new Range(0, 2e6);
            case PRESSURE_RATE, LEAK_RATE -> new Range(-2e6, 2e6);
            case TIME -> new Range(-7200, 7200);
            case VOLTAGE -> new Range(-2000, 2000);
            case NOMINAL_SHARE -> new Range(0, 2);
            case RATIO -> new Range(-1, 2);
            case ANGLE -> new Range(-360, 360);
            case SPEED -> new Range(0, 1000);
            case VOLUME -> new Range(0, 10);
            case LENGTH -> new Range(0, 1000);
            case CONDUCTANCE -> new Range(0, 1e-5);
            case RESISTANCE -> new Range(0, 1e9);
            case VOLUME_FLOW -> new Range(0, 1);
            case CURRENT -> new Range(-1000, 1000);
            case CLOCK_RATE -> new Range(0, 0.01);
            case COUNT -> new Range(0, 1e6);
            case CONVERTER_COUNT -> new Range(Integer.MIN_VALUE, Integer.MAX_VALUE);
        };
    }

    boolean holds(double value) {
        return value >= least && value <= most;
    }
}
