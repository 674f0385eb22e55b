package dev.lapwing.unit;

/**
 * What a controller senses in one step. One object lives as long as its bench, which writes it before every step; so a
 * step allocates nothing. Pressures are gauge, in Pa. A new one is a cab at rest: nothing supplied, pressed or charged.
 */
public final class UnitInputs {
    /** Brake handle, in degrees as the wiring counts them. */
    public double handleDegrees;
    /** Whether the deadman is held. */
    public boolean deadmanHeld;
    /** Whether the acknowledgement is pressed. */
    public boolean acknowledgementPressed;
    /** Whether the cab's master switch is on. */
    public boolean masterOn;
    /** Whether the reverser stands in forward; neither direction is off. */
    public boolean reverserForward;
    /** Whether the reverser stands in reverse. */
    public boolean reverserReverse;
    /** Notch of the power handle, 0 for off. */
    public int powerNotch;
    /** Speed of the train, in m/s; its sign does not count. */
    public double speedMetresPerSecond;
    /** EP supply at the unit, in V. */
    public double epSupplyVolts;
    /** Supply of contactors and electronics at the unit, in V. */
    public double controlSupplyVolts;
    /** Brake pipe at the cab. */
    public double brakePipePascals;
    /** Brake cylinder of the leading vehicle, on which the controller laps itself. */
    public double cylinderPascals;
    /** Main reservoir pipe at the cab. */
    public double mainReservoirPascals;
}
