package dev.lapwing.cli;

import dev.lapwing.bench.LinkChoice;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;

/** A whole number on the command line, inside the range that its option's help states. */
abstract class WholeNumber implements ITypeConverter<Integer> {
    private final String what;
    private final int least;
    private final int most;

    private WholeNumber(String what, int least, int most) {
        this.what = what;
        this.least = least;
        this.most = most;
    }

    @Override
    public Integer convert(String text) {
        try {
            int number = Integer.parseInt(text.strip());
            if (number >= least && number <= most) {
                return number;
            }
        } catch (NumberFormatException e) {
            // Said below.
        }
        throw new TypeConversionException("'" + text + "' is no " + what + " from " + least + " to " + most);
    }

    /** Bits a second of a serial line. */
    static final class Baud extends WholeNumber {
        Baud() {
            super("number of bits a second", LinkChoice.BAUD_MIN, LinkChoice.BAUD_MAX);
        }
    }

    /** A TCP port. */
    static final class Port extends WholeNumber {
        Port() {
            super("TCP port", 1, 65_535);
        }
    }

    /** How often a round trip is timed. */
    static final class Pings extends WholeNumber {
        Pings() {
            super("number of round trips", 1, 100_000);
        }
    }

    /** How many runs a study has. */
    static final class Runs extends WholeNumber {
        Runs() {
            super("number of runs", 1, 1_000_000);
        }
    }
}
