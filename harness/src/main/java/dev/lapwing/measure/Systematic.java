package dev.lapwing.measure;

import dev.lapwing.quantity.Dimension;
import dev.lapwing.uncertainty.Along;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Input;
import dev.lapwing.uncertainty.Instrument;
import java.util.ArrayList;
import java.util.List;

/**
 * What calibration and drift leave in the readings of a channel, told apart as {@link Along} has it: what is alike at
 * every level stays under the keys of both and leaves a difference of two levels; what goes along the range has the key
 * {@code span/POINT}, and stays in it as it must.
 */
final class Systematic {
    private Systematic() {}

    /** In a reading of that level, in the channel's unit; together as much at every level. */
    static List<Component> at(double level, Instrument instrument, Dimension dimension) {
        Along along = instrument.along();
        double alike = along.alike(level);
        String point = instrument.point();
        List<Component> parts = new ArrayList<>(List.of(
                Component.of("calibration/" + point, alike, Input.stated(instrument.calibration(), dimension)),
                Component.of("drift/" + point, alike, Input.stated(instrument.drift(), dimension))));
        if (along.turn() > 0) {
            double both = StrictMath.hypot(instrument.calibration(), instrument.drift());
            parts.add(Component.of("span/" + point, along.along(level), Input.stated(both, dimension)));
        }
        return parts;
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
