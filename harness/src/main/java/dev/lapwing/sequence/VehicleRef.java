package dev.lapwing.sequence;

/** A vehicle as a step refers to it. */
public sealed interface VehicleRef {
    /** By number, from 1 at the cab under test. */
    record Numbered(int number) implements VehicleRef {}

    /** {@code first}. */
    record First() implements VehicleRef {}

    /** {@code last}. */
    record Last() implements VehicleRef {}

    /** {@code every}: one finding for each vehicle. Only in expectations and conditions. */
    record Every() implements VehicleRef {}

    /** {@code <name>}: the variable of a loop. */
    record Looped(String variable) implements VehicleRef {}
}
