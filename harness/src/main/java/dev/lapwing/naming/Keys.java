package dev.lapwing.naming;

import java.util.Arrays;
import java.util.Optional;

/** Turns the short keys of bench files, plans and records back into what they name. */
public final class Keys {
    private Keys() {}

    /** The signal of that key, or empty if it names none. */
    public static Optional<Signal> signal(String key) {
        Optional<Signal> twin = twin(key);
        return twin.isPresent() ? twin : single(key);
    }

    private static Optional<Signal> twin(String key) {
        return key.endsWith(Signal.Twin.SUFFIX)
                ? single(key.substring(0, key.length() - Signal.Twin.SUFFIX.length()))
                        .filter(of -> !of.digital())
                        .map(Signal.Twin::new)
                : Optional.empty();
    }

    private static Optional<Signal> single(String key) {
        if (key.equals("handle-angle")) {
            return Optional.of(new Signal.HandleAngle());
        }
        if (key.startsWith("wire/") && key.length() > 5) {
            return Optional.of(new Signal.Wire(key.substring(5)));
        }
        if (key.startsWith("supply/") && key.length() > 7) {
            return Optional.of(new Signal.SupplyVoltage(key.substring(7)));
        }
        int at = key.indexOf('@');
        if (at < 0 || !key.substring(at + 1).matches("[1-9]\\d?")) {
            return Optional.empty();
        }
        int vehicle = Integer.parseInt(key.substring(at + 1));
        return PressureKind.named(key.substring(0, at)).map(kind -> new Signal.Pressure(kind, vehicle));
    }

    /** The actuator of that key, or empty if it names none. */
    public static Optional<Actuator> actuator(String key) {
        if (key.startsWith("supply/") && key.length() > 7) {
            return Optional.of(new Actuator.Supply(key.substring(7)));
        }
        return switch (key) {
            case "handle" -> Optional.of(new Actuator.Handle());
            case "power-handle" -> Optional.of(new Actuator.PowerHandle());
            case "speed" -> Optional.of(new Actuator.Speed());
            default -> switchOf(key);
        };
    }

    private static Optional<Actuator> switchOf(String key) {
        int slash = key.indexOf('/');
        String kindText = slash < 0 ? key : key.substring(0, slash);
        String of = slash < 0 ? "" : key.substring(slash + 1);
        return Arrays.stream(SwitchKind.values())
                .filter(kind -> kind.text().equals(kindText))
                // A slash with nothing behind it would be a second name of the same.
                .filter(kind -> slash < 0 || !of.isEmpty())
                .findFirst()
                .map(kind -> new Actuator.Switch(kind, of));
    }
}
