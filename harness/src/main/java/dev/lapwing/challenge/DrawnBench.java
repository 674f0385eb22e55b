package dev.lapwing.challenge;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Calibration;
import dev.lapwing.bench.Input;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.bench.Point;
import dev.lapwing.bench.PointKind;
import dev.lapwing.bench.Stream;
import dev.lapwing.naming.Signal;
import dev.lapwing.quantity.Unit;
import dev.lapwing.source.Place;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.SplittableRandom;

/**
 * A bench drawn at random: what it claims of itself, and what it really gets wrong, which is what it claims.
 *
 * @param everyUs    sample interval, 200 µs to 20 ms (50 Hz to 5 kHz)
 * @param calibration standard uncertainty of a pressure's calibration, Pa
 * @param drift      standard uncertainty of its drift, Pa
 * @param spanShare  what it claims of its span, of all that calibration and drift allow: 0.05 to 1
 * @param noise      standard deviation of a sample, Pa
 * @param bits       of its converters
 * @param clock      bound of its clock's rate error, as a share
 * @param filterUs   fixed delay contained in stamps of samples
 * @param stampUs    bound of what is left wrong in them
 * @param stimulusUs bound of the error in the stamp of a stimulus
 * @param delayUs    of its link, 0 to 50 ms
 * @param jitterUs   greatest further delay of a report
 * @param polling    how it is read, where it stamps nothing; it then has no further delay
 */
record DrawnBench(
        long everyUs,
        double calibration,
        double drift,
        double spanShare,
        double noise,
        int bits,
        double clock,
        int filterUs,
        int stampUs,
        int stimulusUs,
        long delayUs,
        long jitterUs,
        Optional<LinkChoice.Modbus> polling) {
    private static final double FULL = Unit.PSI.toBase(150);
    private static final int EDGE_STAMP_US = 50;
    private static final int GLITCH_US = 200;
    private static final int BAUD = 115_200;
    private static final Place NOWHERE = new Place("drawn", 1, 1);

    static DrawnBench of(SplittableRandom random) {
        double calibration = Unit.PSI.toBase(between(random, 0.02, 0.3));
        return new DrawnBench(
                Math.round(between(random, 200, 20_000)),
                calibration,
                calibration * random.nextDouble(),
                between(random, 0.05, 1),
                Unit.PSI.toBase(between(random, 0.005, 0.2)),
                12 + random.nextInt(5),
                between(random, 1e-6, 200e-6),
                random.nextInt(5001),
                (int) Math.round(between(random, 5, 500)),
                (int) Math.round(between(random, 5, 1000)),
                random.nextLong(50_001),
                random.nextLong(10_001),
                Optional.empty());
    }

    /** One whose modules stamp nothing and are read every 20 to 200 ms, with answers within 2 to 20 ms. */
    static DrawnBench polled(SplittableRandom random) {
        DrawnBench stamped = of(random);
        long pollUs = Math.round(between(random, 20_000, 200_000));
        long roundTripUs = Math.round(between(random, 2_000, 20_000));
        return new DrawnBench(
                pollUs,
                stamped.calibration,
                stamped.drift,
                stamped.spanShare,
                stamped.noise,
                stamped.bits,
                stamped.clock,
                stamped.filterUs,
                stamped.stampUs,
                (int) Math.round(between(random, 1000, 20_000)),
                0,
                0,
                Optional.of(
                        new LinkChoice.Modbus("drawn", BAUD, LinkChoice.Parity.EVEN, pollUs, roundTripUs, List.of())));
    }

    /** The same bench at 1 kHz, with nothing wrong but that it samples; where on its grid depends on its filter. */
    DrawnBench ideal() {
        return new DrawnBench(1000, 0, 0, 0, 0, 24, 0, filterUs, 0, 0, delayUs, jitterUs, polling);
    }

    /** Evenly spread in its logarithm. */
    private static double between(SplittableRandom random, double least, double most) {
        return least * StrictMath.pow(most / least, random.nextDouble());
    }

    /**
     * What it really gets wrong: at both ends of the range as much as it claims, of which the claimed share is a wrong
     * gain, and the rest the same at every value; less between the ends.
     */
    LinkChoice.Simulated figures() {
        double atEnds = StrictMath.hypot(calibration, drift) / FULL;
        double constant = atEnds * Math.sqrt(1 - spanShare * spanShare);
        return new LinkChoice.Simulated(
                1e-3, 0, constant, OptionalDouble.of(2 * spanShare * atEnds), noise / FULL, clock);
    }

    /** What it claims, with those signals connected. */
    BenchFile file(List<Signal> signals) {
        List<Point> points = new ArrayList<>();
        List<Input> inputs = new ArrayList<>();
        List<String> sampled = new ArrayList<>();
        int top = (1 << bits) - 1;
        for (Signal signal : signals) {
            String name = signal.key();
            if (signal.digital()) {
                points.add(new Point(name, PointKind.DIGITAL_IN, 0, 1, 0, 0, EDGE_STAMP_US, GLITCH_US));
                inputs.add(new Input(signal, name, Optional.empty(), NOWHERE));
            } else {
                points.add(new Point(name, PointKind.ANALOG_IN, 0, top, 0, filterUs, stampUs, 0));
                inputs.add(new Input(signal, name, Optional.of(calibrated(top)), NOWHERE));
                sampled.add(name);
            }
        }
        List<Stream> streams = sampled.isEmpty() ? List.of() : List.of(new Stream("fast", sampled, everyUs));
        LinkChoice link = polling.<LinkChoice>map(modbus -> modbus).orElse(figures());
        return new BenchFile("drawn", "drawn", link, clock, points, inputs, List.of(), streams);
    }

    /** A live zero at a thirtieth of the range. */
    private Calibration calibrated(int top) {
        return new Calibration(
                List.of(new Calibration.Pair(top / 30.0, 0), new Calibration.Pair(top * 0.95, FULL)),
                calibration,
                drift,
                OptionalDouble.of(spanShare * Calibration.greatestSpan(calibration, drift)),
                noise,
                "2026-01-01",
                "2027-01-01",
                "drawn");
    }
}
