package dev.lapwing.plant;

/** A vehicle's volumes that may leak. */
public enum Volume {
    BRAKE_PIPE,
    MAIN_PIPE,
    AUXILIARY,
    CYLINDER
}
