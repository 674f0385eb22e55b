package dev.lapwing.plant;

/** Air as an ideal gas. */
final class Air {
    /** Specific gas constant of dry air in J/(kg·K). Source: U.S. Standard Atmosphere 1976 (287.053), from memory. */
    static final double GAS_CONSTANT = 287.05;

    private Air() {}
}
