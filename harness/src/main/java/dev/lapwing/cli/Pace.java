package dev.lapwing.cli;

import dev.lapwing.bench.LinkChoice;
import dev.lapwing.link.Wire;
import java.math.BigDecimal;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.Option;
import picocli.CommandLine.TypeConversionException;

/** How fast a link and what answers at it are. */
final class Pace {
    @Option(
            names = "--baud",
            defaultValue = "" + LinkChoice.BAUD_DEFAULT,
            paramLabel = "NUMBER",
            converter = WholeNumber.Baud.class,
            description = "Bits a second of the serial line, " + LinkChoice.BAUD_MIN + " to " + LinkChoice.BAUD_MAX
                    + "; ${DEFAULT-VALUE} by default.")
    private int baud;

    @Option(
            names = "--speed",
            defaultValue = "1",
            paramLabel = "TIMES",
            converter = Speed.class,
            description = "How many times faster than real time a simulated bench is served, 1 to " + Wire.SPEED_MAX
                    + ", as far as the line carries its samples (--baud); ${DEFAULT-VALUE} by default, as every real"
                    + " bench is. The bench file of the run says the same, such as 'speed: 4 times'.")
    private double speed;

    /** Bits a second of a serial line. */
    int baud() {
        return baud;
    }

    /** How many times faster than real time. */
    double speed() {
        return speed;
    }

    /** The options that say the same to another command; empty where the defaults do. */
    String options(boolean ofLine) {
        String line = ofLine && baud != LinkChoice.BAUD_DEFAULT ? " --baud " + baud : "";
        String faster = speed == 1
                ? ""
                : " --speed " + new BigDecimal(speed).stripTrailingZeros().toPlainString();
        return line + faster;
    }

    /** Refuses what no bench is served at. */
    static final class Speed implements ITypeConverter<Double> {
        @Override
        public Double convert(String text) {
            try {
                double speed = Double.parseDouble(text.strip());
                if (speed >= 1 && speed <= Wire.SPEED_MAX) {
                    return speed;
                }
            } catch (NumberFormatException e) {
                // Said below.
            }
            throw new TypeConversionException("'" + text + "' is no speed from 1 to " + Wire.SPEED_MAX + " times");
        }
    }
}
