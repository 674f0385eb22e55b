package dev.lapwing.cli;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Point;
import dev.lapwing.transport.linked.BenchFault;
import dev.lapwing.transport.linked.TimedFault;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;

/** Reads a fault as it is written on the command line: what, how much, and from when of bench time. */
final class FaultOption implements ITypeConverter<TimedFault> {
    static final String FORMS =
            "bit-errors=RATE, dropped=RATE, doubled=RATE, delay=TIME, delay=TIME/JITTER, stall=TIME,"
                    + " unplugged=TIME, wrong-baud=TIME, stranger=TIME, reset, power-loss, dead-transducer=POINT,"
                    + " dead-transducer=POINT:COUNTS";

    /** What stands for the capitals, with ranges and units. */
    static final String FIGURES = "RATE is a probability for each bit, byte or message, 0 to 1, such as 1e-4. TIME and"
            + " JITTER are bench time with its unit, 0 s to a day, such as 250ms or 2s; of stall, unplugged, wrong-baud"
            + " and stranger it is how long they last. POINT is an analogue input of the bench file, COUNTS a number in"
            + " its range.";

    private static final Pattern WRITTEN = Pattern.compile("([a-z-]+)(?:=([^@]+))?(?:@(.+))?");

    @Override
    public TimedFault convert(String text) {
        Matcher written = WRITTEN.matcher(text.strip());
        if (!written.matches()) {
            throw unreadable(text, "it is no fault");
        }
        String value = written.group(2) == null ? "" : written.group(2).strip();
        long atNanos = written.group(3) == null ? 0 : nanos(text, written.group(3));
        return new TimedFault(fault(text, written.group(1), value), atNanos);
    }

    /** Why a bench cannot have that fault; empty if it can. */
    static Optional<String> unfit(BenchFault fault, BenchFile bench) {
        if (!(fault instanceof BenchFault.DeadTransducer dead)) {
            return Optional.empty();
        }
        List<Point> analogue = bench.points().stream()
                .filter(point -> !point.kind().output() && !point.kind().digital())
                .toList();
        Optional<Point> dies = analogue.stream()
                .filter(point -> point.name().equals(dead.point()))
                .findFirst();
        if (dies.isEmpty()) {
            return Optional.of("'" + dead.point() + "' is no analogue input of " + bench.file() + "; it has "
                    + analogue.stream().map(Point::name).collect(Collectors.joining(", ")));
        }
        Point point = dies.get();
        boolean reads = dead.counts().isEmpty()
                || dead.counts().getAsInt() >= point.min() && dead.counts().getAsInt() <= point.max();
        return reads
                ? Optional.empty()
                : Optional.of("'" + point.name() + "' counts from " + point.min() + " to " + point.max());
    }

    private static BenchFault fault(String text, String name, String value) {
        return switch (name) {
            case "bit-errors" -> new BenchFault.BitErrors(rate(text, value));
            case "dropped" -> new BenchFault.Dropped(rate(text, value));
            case "doubled" -> new BenchFault.Doubled(rate(text, value));
            case "delay" -> delayed(text, value);
            case "stall" -> new BenchFault.Stalled(nanos(text, value));
            case "unplugged" -> new BenchFault.Unplugged(nanos(text, value));
            case "wrong-baud" -> new BenchFault.WrongBaud(nanos(text, value));
            case "stranger" -> new BenchFault.Stranger(nanos(text, value));
            case "dead-transducer" -> dead(text, value);
            case "reset" -> bare(text, value, new BenchFault.Reset());
            case "power-loss" -> bare(text, value, new BenchFault.PowerLoss());
            default -> throw unreadable(text, "no fault is called '" + name + "'");
        };
    }

    private static BenchFault bare(String text, String value, BenchFault fault) {
        if (!value.isEmpty()) {
            throw unreadable(text, "it takes no figure");
        }
        return fault;
    }

    private static BenchFault delayed(String text, String value) {
        int slash = value.indexOf('/');
        return slash < 0
                ? new BenchFault.Delayed(nanos(text, value), 0)
                : new BenchFault.Delayed(
                        nanos(text, value.substring(0, slash)), nanos(text, value.substring(slash + 1)));
    }

    private static BenchFault dead(String text, String value) {
        String[] parts = value.split(":", -1);
        try {
            if (parts.length <= 2 && !parts[0].isBlank()) {
                return new BenchFault.DeadTransducer(
                        parts[0].strip(),
                        parts.length == 1 ? OptionalInt.empty() : OptionalInt.of(Integer.parseInt(parts[1].strip())));
            }
        } catch (NumberFormatException e) {
            // Said below.
        }
        throw unreadable(text, "name a point and, if you like, its counts");
    }

    private static double rate(String text, String value) {
        try {
            double rate = Double.parseDouble(value);
            if (rate >= 0 && rate <= 1) {
                return rate;
            }
        } catch (NumberFormatException e) {
            // Said below.
        }
        throw unreadable(text, "a rate is a probability from 0 to 1, such as 1e-4");
    }

    private static long nanos(String text, String value) {
        OptionalDouble seconds = WrittenTime.seconds(value);
        if (seconds.isPresent()) {
            return Math.round(seconds.getAsDouble() * 1e9);
        }
        throw unreadable(text, "'" + value.strip() + "' is no time from 0 s to a day, such as '250 ms'");
    }

    private static TypeConversionException unreadable(String text, String why) {
        return new TypeConversionException("'" + text + "': " + why + "; a fault is one of " + FORMS
                + ", each followed by '@TIME' if it strikes later than at once");
    }
}
