package dev.lapwing.naming;

import java.util.Arrays;
import java.util.Optional;

/** Where on a vehicle, or in the cab, a pressure is measured. All gauge. */
public enum PressureKind {
    BRAKE_PIPE("brake-pipe"),
    BRAKE_CYLINDER("brake-cylinder"),
    AUXILIARY_RESERVOIR("auxiliary-reservoir"),
    MAIN_RESERVOIR_PIPE("main-reservoir-pipe"),
    /** The reservoir that the EP brake of a vehicle fills its cylinder from. */
    SUPPLY_RESERVOIR("supply-reservoir");

    private final String text;

    PressureKind(String text) {
        this.text = text;
    }

    /** As written in files: {@code brake-pipe}. */
    public String text() {
        return text;
    }

    public static Optional<PressureKind> named(String text) {
        return Arrays.stream(values()).filter(kind -> kind.text.equals(text)).findFirst();
    }
}
