package dev.lapwing.unit;

import java.util.Arrays;
import java.util.Optional;

/** The wires at a controller's connector that it switches, by the names that a fixture's wiring lists. */
public enum UnitWire {
    /** Contact that puts the EP supply on the application train wire. */
    APPLICATION("application"),
    /** Contact that puts the EP supply on the holding train wire. */
    HOLDING("holding"),
    /** On while traction is called for and nothing forbids it. */
    TRACTION("traction"),
    /** On from notch 1 upward. */
    TRACTION_NOTCH_1("traction-notch-1"),
    /** On from notch 2 upward; the further ones likewise. */
    TRACTION_NOTCH_2("traction-notch-2"),
    TRACTION_NOTCH_3("traction-notch-3"),
    TRACTION_NOTCH_4("traction-notch-4"),
    TRACTION_NOTCH_5("traction-notch-5"),
    TRACTION_NOTCH_6("traction-notch-6"),
    TRACTION_NOTCH_7("traction-notch-7"),
    TRACTION_NOTCH_8("traction-notch-8"),
    /** On while the reverser may be moved. */
    REVERSER_UNLOCKED("reverser-unlocked"),
    /** Lit while the EP supply, measured at the unit, is usable. */
    EP_SUPPLY_LAMP("ep-supply-lamp"),
    /** First warning of vigilance. */
    WARNING_LIGHT("warning-light"),
    /** Second warning of vigilance, and the warning of a delayed deadman. */
    WARNING_SOUNDER("warning-sounder"),
    /** Retrofit only: the EP supply has failed. */
    EP_SUPPLY_ALARM("ep-supply-alarm"),
    /** Retrofit only: it found a fault in itself or its sensors. */
    FAULT("fault");

    /** Greatest notch for which there is a wire. */
    public static final int NOTCHES_MAX = 8;

    /** A copy of its own, since values() makes one at each call and a controller asks in every step. */
    private static final UnitWire[] ALL = values();

    private final String text;

    UnitWire(String text) {
        this.text = text;
    }

    /** As written in files: {@code traction-notch-1}. */
    public String text() {
        return text;
    }

    /** The wire that is on from a notch upward, 1 to {@link #NOTCHES_MAX}. */
    public static UnitWire notch(int notch) {
        if (notch < 1 || notch > NOTCHES_MAX) {
            throw new IllegalArgumentException("a notch has a wire from 1 to " + NOTCHES_MAX + ", got " + notch);
        }
        return ALL[TRACTION_NOTCH_1.ordinal() + notch - 1];
    }

    public static Optional<UnitWire> named(String text) {
        return Arrays.stream(values()).filter(wire -> wire.text.equals(text)).findFirst();
    }
}
