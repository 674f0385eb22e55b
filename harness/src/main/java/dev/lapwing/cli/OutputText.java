package dev.lapwing.cli;

import dev.lapwing.bench.Output;
import dev.lapwing.bench.Point;
import dev.lapwing.naming.Actuator;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.quantity.Quantity;
import dev.lapwing.quantity.UnreadableQuantity;
import java.util.Locale;
import java.util.OptionalInt;

/** What an output is driven to, as people say it. */
record OutputText(Output output, Point point, PressureDisplay pressures) {
    private static final int DIGITS = 4;

    /** {@code on}, {@code notch 3}, {@code 30 degrees}. */
    String of(int counts) {
        double value = output.value(counts);
        if (output.actuator().digital()) {
            return counts == 0 ? "off" : "on";
        }
        if (output.actuator() instanceof Actuator.PowerHandle) {
            return String.format(Locale.ROOT, "notch %.0f", value);
        }
        return pressures.print(value, output.actuator().dimension(), DIGITS);
    }

    /** The count to try unless another is asked for: the other level, or a quarter of the way to the farther end. */
    int trial() {
        if (point.kind().digital()) {
            return 1 - point.safe();
        }
        int far = point.max() - point.safe() >= point.safe() - point.min() ? point.max() : point.min();
        int quarter = (int) Math.rint((far - point.safe()) * 0.25);
        return quarter == 0 ? far : point.safe() + quarter;
    }

    /** The count of a value that a person typed; empty if it is none, or beyond what the point takes. */
    OptionalInt typed(String text) {
        try {
            double value;
            if (output.actuator().digital()) {
                value = text.equals("on") ? 1 : text.equals("off") ? 0 : Double.NaN;
            } else if (output.actuator() instanceof Actuator.PowerHandle) {
                value = text.matches("notch \\d{1,2}") ? Double.parseDouble(text.substring(6)) : Double.NaN;
            } else {
                Quantity quantity = Quantity.parse(text);
                value = quantity.dimension() == output.actuator().dimension() ? quantity.base() : Double.NaN;
            }
            int counts = output.counts(value);
            boolean good = !Double.isNaN(value) && counts >= point.min() && counts <= point.max();
            return good ? OptionalInt.of(counts) : OptionalInt.empty();
        } catch (UnreadableQuantity e) {
            return OptionalInt.empty();
        }
    }
}
