package dev.lapwing.plant;

/** The wires that run through the train. */
public enum TrainWire {
    /** Energised, it opens every application magnet valve. */
    APPLICATION,
    /** Energised, it closes every holding magnet valve. */
    HOLDING,
    /** The common way back of every coil and lamp. */
    RETURN,
    /** Carries the EP supply to the lamps that show it. */
    LAMP,
    /** Energised while traction is permitted. */
    TRACTION
}
