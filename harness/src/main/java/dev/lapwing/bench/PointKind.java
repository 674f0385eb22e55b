package dev.lapwing.bench;

import java.util.Arrays;
import java.util.Optional;

/** The kinds of bench points. */
public enum PointKind {
    ANALOG_IN("analog-in"),
    ANALOG_OUT("analog-out"),
    DIGITAL_IN("digital-in"),
    DIGITAL_OUT("digital-out"),
    /** Frequency in mHz. */
    PULSE_OUT("pulse-out"),
    /** Duty in per mille. */
    PWM_OUT("pwm-out"),
    COUNTER_IN("counter-in");

    private final String text;

    PointKind(String text) {
        this.text = text;
    }

    public String text() {
        return text;
    }

    public boolean output() {
        return this == ANALOG_OUT || this == DIGITAL_OUT || this == PULSE_OUT || this == PWM_OUT;
    }

    public boolean digital() {
        return this == DIGITAL_IN || this == DIGITAL_OUT;
    }

    public static Optional<PointKind> named(String text) {
        return Arrays.stream(values()).filter(kind -> kind.text.equals(text)).findFirst();
    }
}
