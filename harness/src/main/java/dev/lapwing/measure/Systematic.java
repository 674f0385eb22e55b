package dev.lapwing.measure;

import dev.lapwing.quantity.Dimension;
import dev.lapwing.uncertainty.Along;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Input;
import dev.lapwing.uncertainty.Instrument;
import java.util.ArrayList;
import java.util.List;

/**
 * What calibration and drift leave in the readings of a channel, each in two independent parts as {@link Along} has it:
 * with the signs of both, a level holds all of it, and a difference of two levels what they are not off alike.
 */
final class Systematic {
    private Systematic() {}

    /** In a reading of that level, in the channel's unit; together as much at every level. */
    static List<Component> at(double level, Instrument instrument, Dimension dimension) {
        List<Component> parts = new ArrayList<>();
        add(parts, "calibration/" + instrument.point(), instrument.calibration(), level, instrument.along(), dimension);
        add(parts, "drift/" + instrument.point(), instrument.drift(), level, instrument.along(), dimension);
        return parts;
    }

    private static void add(
            List<Component> to, String source, double standard, double level, Along along, Dimension dimension) {
        Input input = Input.stated(standard, dimension);
        to.add(Component.of(source, along.alike(level), input));
        if (along.turn() > 0) {
            to.add(Component.of(source + Component.ALONG, along.along(level), input));
        }
    }

    /** In the difference of two levels, second less first, in the channel's unit; nothing where they are off alike. */
    static List<Component> change(double first, double second, Instrument instrument, Dimension dimension) {
        if (instrument.along().turn() == 0) {
            return List.of();
        }
        List<Component> parts = new ArrayList<>(at(second, instrument, dimension));
        parts.addAll(Derived.scaled(at(first, instrument, dimension), -1));
        return parts;
    }
}
