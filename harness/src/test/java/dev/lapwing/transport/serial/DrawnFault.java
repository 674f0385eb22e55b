package dev.lapwing.transport.serial;

import dev.lapwing.transport.linked.BenchFault;
import dev.lapwing.transport.linked.TimedFault;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.SplittableRandom;

/**
 * One fault of a campaign: of the bench and its line, or of the host's side.
 *
 * @param kind    its row in the table
 * @param timed   what the served bench does to itself; empty if it is the host's side that fails
 * @param atNanos its moment, in ns of bench time
 */
record DrawnFault(Kind kind, Optional<TimedFault> timed, long atNanos) {
    private static final long MOMENT_NANOS_MAX = 11_000_000_000L;
    private static final List<String> MEASURED = List.of("BC1", "BC2", "BC3", "BC4", "U-EP", "BP1", "BP4");

    enum Kind {
        NONE,
        BIT_ERRORS,
        DROPPED,
        DOUBLED,
        DELAYED,
        STALLED,
        UNPLUGGED,
        WRONG_BAUD,
        STRANGER,
        DEAD_TRANSDUCER,
        RESET,
        POWER_LOSS,
        /** The host's line goes without a word. */
        HOST_GONE,
        /** Another host tries to have the same device. */
        SECOND_HOST
    }

    static DrawnFault of(SplittableRandom random) {
        Kind kind = Kind.values()[random.nextInt(Kind.values().length)];
        long at = random.nextLong(MOMENT_NANOS_MAX);
        return new DrawnFault(kind, fault(kind, random).map(fault -> new TimedFault(fault, at)), at);
    }

    private static Optional<BenchFault> fault(Kind kind, SplittableRandom random) {
        return Optional.ofNullable(
                switch (kind) {
                    case NONE, HOST_GONE, SECOND_HOST -> null;
                    case BIT_ERRORS -> new BenchFault.BitErrors(rate(random));
                    case DROPPED -> new BenchFault.Dropped(10 * rate(random));
                    case DOUBLED -> new BenchFault.Doubled(10 * rate(random));
                    case DELAYED -> new BenchFault.Delayed(time(random) / 10, time(random) / 10);
                    case STALLED -> new BenchFault.Stalled(time(random));
                    case UNPLUGGED -> new BenchFault.Unplugged(time(random));
                    case WRONG_BAUD -> new BenchFault.WrongBaud(time(random));
                    case STRANGER -> new BenchFault.Stranger(time(random));
                    case DEAD_TRANSDUCER -> dead(random);
                    case RESET -> new BenchFault.Reset();
                    case POWER_LOSS -> new BenchFault.PowerLoss();
                });
    }

    private static BenchFault dead(SplittableRandom random) {
        String point = MEASURED.get(random.nextInt(MEASURED.size()));
        return switch (random.nextInt(3)) {
            case 0 -> new BenchFault.DeadTransducer(point, OptionalInt.empty());
            case 1 -> new BenchFault.DeadTransducer(point, OptionalInt.of(random.nextBoolean() ? 0 : 65_535));
            default -> new BenchFault.DeadTransducer(point, OptionalInt.of(random.nextInt(65_536)));
        };
    }

    /** From 1e-7 to 1e-3, evenly by decades. */
    private static double rate(SplittableRandom random) {
        return Math.pow(10, -7 + 4 * random.nextDouble());
    }

    /** From 10 ms to 4 s, evenly by decades. */
    private static long time(SplittableRandom random) {
        return Math.round(1e7 * Math.pow(400, random.nextDouble()));
    }
}
