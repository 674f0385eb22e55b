package dev.lapwing.cli;

import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.Quantity;
import dev.lapwing.quantity.UnreadableQuantity;
import java.util.OptionalDouble;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;

/** A time on the command line with its unit, such as {@code 10s}; in s, more than none and at most a day. */
final class WrittenTime implements ITypeConverter<Double> {
    private static final double DAY = 86_400;

    @Override
    public Double convert(String text) {
        OptionalDouble seconds = seconds(text);
        if (seconds.isPresent() && seconds.getAsDouble() > 0) {
            return seconds.getAsDouble();
        }
        throw new TypeConversionException("'" + text + "' is no time above 0 s up to a day; write 10s or 5min");
    }

    /** A time from 0 s to a day, in s; empty if the text is none. */
    static OptionalDouble seconds(String text) {
        try {
            Quantity time = Quantity.parse(text);
            if (time.dimension() == Dimension.TIME && time.base() >= 0 && time.base() <= DAY) {
                return OptionalDouble.of(time.base());
            }
        } catch (UnreadableQuantity e) {
            // No time either.
        }
        return OptionalDouble.empty();
    }
}
