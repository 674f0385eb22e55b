package dev.lapwing.unit;

/** A pressure governor with two set points: closes above the upper one, opens below the lower one. Open at first. */
final class PressureSwitch {
    private final double opensPascals;
    private final double closesPascals;
    private boolean closed;

    PressureSwitch(double opensPascals, double closesPascals) {
        this.opensPascals = opensPascals;
        this.closesPascals = closesPascals;
    }

    boolean follow(double pascals) {
        closed = pascals > closesPascals || closed && pascals >= opensPascals;
        return closed;
    }
}
