package dev.lapwing.sequence;

import dev.lapwing.naming.PressureKind;
import dev.lapwing.source.Place;

/** A signal as a step refers to it. */
public sealed interface SignalRef {
    Place place();

    /** {@code brake-cylinder at last}. */
    record Pressure(PressureKind kind, VehicleRef vehicle, Place place) implements SignalRef {}

    /** {@code wire application}. */
    record Wire(String name, Place place) implements SignalRef {}

    /** {@code supply ep}. */
    record SupplyVoltage(String name, Place place) implements SignalRef {}

    /** {@code handle-angle}. */
    record HandleAngle(Place place) implements SignalRef {}
}
