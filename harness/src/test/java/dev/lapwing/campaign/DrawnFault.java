package dev.lapwing.campaign;

import dev.lapwing.transport.linked.BenchFault;
import dev.lapwing.transport.linked.TimedFault;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.SplittableRandom;

/**
 * One fault of a campaign.
 *
 * @param over     its row in the table
 * @param ofBench  what the served bench does to itself or to what carries its messages; empty if it comes from
 *                 elsewhere
 * @param atNanos  its moment, in ns after host and bench began
 * @param forNanos how long it lasts, in ns, where it ends by itself
 */
record DrawnFault(Kind.Over over, Optional<BenchFault> ofBench, long atNanos, long forNanos) {
    /** A little more than a run takes: some faults come when it is over. */
    private static final long MOMENT_NANOS_MAX = 10_000_000_000L;

    private static final List<String> MEASURED = List.of("BC1", "BC2", "BC3", "BC4", "U-EP", "BP1", "BP4");

    /**
     * So many kinds further with each seed: those that start a process of their own, which is much work for the
     * machine, do not come together. Has no divisor in common with the number of kinds.
     */
    private static final int STRIDE = 7;

    /** Each kind over each link in turn; what is left to chance is drawn. */
    static DrawnFault of(long seed) {
        List<Kind.Over> all = Kind.all();
        Kind.Over over = all.get(Math.floorMod(seed * STRIDE, all.size()));
        SplittableRandom random = new SplittableRandom(seed);
        long at = random.nextLong(MOMENT_NANOS_MAX);
        long lasting = time(random);
        return new DrawnFault(over, fault(over.kind(), lasting, random), at, lasting);
    }

    Kind kind() {
        return over.kind();
    }

    List<TimedFault> timed() {
        return ofBench.map(fault -> new TimedFault(fault, atNanos)).stream().toList();
    }

    private static Optional<BenchFault> fault(Kind kind, long nanos, SplittableRandom random) {
        return Optional.ofNullable(
                switch (kind) {
                    case BIT_ERRORS -> new BenchFault.BitErrors(rate(random));
                    case DROPPED -> new BenchFault.Dropped(10 * rate(random));
                    case DOUBLED -> new BenchFault.Doubled(10 * rate(random));
                    case MESSAGES_LOST -> new BenchFault.Dropped(share(random));
                    case MESSAGES_DOUBLED -> new BenchFault.Doubled(share(random));
                    case DELAYED -> new BenchFault.Delayed(nanos / 10, time(random) / 10);
                    case STALLED -> new BenchFault.Stalled(nanos);
                    case UNPLUGGED -> new BenchFault.Unplugged(nanos);
                    case WRONG_BAUD -> new BenchFault.WrongBaud(nanos);
                    case STRANGER_ON_THE_LINE -> new BenchFault.Stranger(nanos);
                    case DEAD_TRANSDUCER -> dead(random);
                    case RESET -> new BenchFault.Reset();
                    case POWER_LOSS -> new BenchFault.PowerLoss();
                    default -> null;
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

    /** From 1e-4 to 1, evenly by decades. */
    private static double share(SplittableRandom random) {
        return Math.pow(10, -4 + 4 * random.nextDouble());
    }

    /** From 0.5 ms, which meets one message, to 4 s, evenly by decades. */
    private static long time(SplittableRandom random) {
        return Math.round(5e5 * Math.pow(8_000, random.nextDouble()));
    }
}
