package dev.lapwing.quantity;

/** The unit that a reader wants pressures shown in; storage stays in Pa. */
public enum PressureDisplay {
    PSI(Unit.PSI, Unit.PSI_A_SECOND, Unit.PSI_A_MINUTE),
    BAR(Unit.BAR, Unit.BAR_A_SECOND, Unit.BAR_A_MINUTE),
    KPA(Unit.KILOPASCAL, Unit.KILOPASCAL_A_SECOND, Unit.KILOPASCAL_A_MINUTE);

    private final Unit pressure;
    private final Unit rate;
    private final Unit leak;

    PressureDisplay(Unit pressure, Unit rate, Unit leak) {
        this.pressure = pressure;
        this.rate = rate;
        this.leak = leak;
    }

    /** The unit in which to print a figure of that dimension. */
    public Unit unitFor(Dimension dimension) {
        return switch (dimension) {
            case PRESSURE -> pressure;
            case PRESSURE_RATE -> rate;
            case LEAK_RATE -> leak;
            default ->
                Unit.of(dimension).stream()
                        .filter(unit -> unit.toBase(1) == 1)
                        .findFirst()
                        .orElse(Unit.of(dimension).get(0));
        };
    }

    /** The figure as this reader wants it, with at most that many significant digits and its unit. */
    public String print(double base, Dimension dimension, int significantDigits) {
        return new Quantity(base, dimension).print(unitFor(dimension), significantDigits);
    }

    /** A figure that somebody wrote, as this reader wants it, with its unit. */
    public String written(double base, Dimension dimension) {
        return new Quantity(base, dimension).written(unitFor(dimension));
    }
}
