package dev.lapwing.transport;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Calibration;
import dev.lapwing.bench.Input;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.bench.Point;
import dev.lapwing.bench.PointKind;
import dev.lapwing.bench.Stream;
import dev.lapwing.fixture.Design;
import dev.lapwing.fixture.Handle;
import dev.lapwing.fixture.Wiring;
import dev.lapwing.link.BenchCard;
import dev.lapwing.link.LinkPoint;
import dev.lapwing.link.Wire;
import dev.lapwing.naming.DesignFlag;
import dev.lapwing.naming.DesignOption;
import dev.lapwing.naming.PressureKind;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Plan;
import dev.lapwing.plan.PlanStep;
import dev.lapwing.source.Place;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/** A bench of pressures, eight where a link brings them, as its file and it itself describe it, and plans for it. */
public final class Pressures {
    static final int CHANNELS = 8;
    public static final String STREAM = "quick";
    static final String NAME = "bay-2";
    static final String BOOT = "90c4a1f3";
    static final int COUNT_MAX = 4095;

    private static final double PASCALS_A_COUNT = 200;
    private static final int CLOCK_PPM = 50;
    private static final int STAMP_US = 10;
    private static final String FILE = "eight-channels.yaml";

    private Pressures() {}

    static List<String> points() {
        return points(CHANNELS);
    }

    private static List<String> points(int channels) {
        return IntStream.range(0, channels).mapToObj(i -> "P" + i).toList();
    }

    /** The pressure of point 0. */
    static Signal first() {
        return signal(0);
    }

    /** The pressure of a point. */
    public static Signal signal(int channel) {
        return new Signal.Pressure(PressureKind.BRAKE_CYLINDER, channel + 1);
    }

    /** In Pa. */
    public static double pascals(int count) {
        return PASCALS_A_COUNT * count;
    }

    /** @param everyUs sample interval in µs; 0 for a bench that samples nothing */
    static BenchFile file(LinkChoice link, long everyUs) {
        return file(link, CHANNELS, COUNT_MAX, everyUs);
    }

    /** As above, of so many channels with counts from 0. */
    public static BenchFile file(LinkChoice link, int channels, int countMax, long everyUs) {
        Calibration calibration = new Calibration(
                List.of(new Calibration.Pair(0, 0), new Calibration.Pair(countMax, pascals(countMax))),
                100,
                50,
                100,
                "2026-01-01",
                "2099-01-01",
                "none: a benchmark");
        List<Point> points = points(channels).stream()
                .map(name -> new Point(name, PointKind.ANALOG_IN, 0, countMax, 0, 0, STAMP_US, 0))
                .toList();
        List<Input> inputs = IntStream.range(0, channels)
                .mapToObj(i -> new Input(signal(i), "P" + i, Optional.of(calibration), new Place(FILE, 1, 1)))
                .toList();
        List<Stream> streams = everyUs == 0 ? List.of() : List.of(new Stream(STREAM, points(channels), everyUs));
        return new BenchFile(FILE, NAME, link, CLOCK_PPM * 1e-6, points, inputs, List.of(), streams);
    }

    static BenchCard card() {
        List<LinkPoint> points = file(new LinkChoice.Serial("", LinkChoice.BAUD_DEFAULT, 300, 1), 0).points().stream()
                .map(LinkPoint::of)
                .toList();
        return new BenchCard(Wire.LINK, NAME, BOOT, CLOCK_PPM, 8, 500, 4096, true, points);
    }

    public static Plan plan(BenchFile file, List<PlanStep> steps) {
        Set<DesignOption> options = Arrays.stream(DesignFlag.values())
                .map(flag -> flag.options().get(0))
                .collect(Collectors.toSet());
        Handle handle = new Handle(Map.of("release", 0.0, "full-ep", 40.0, "lap", 55.0), Map.of());
        return new Plan(
                "benchmark",
                "a benchmark",
                "to tell how quick the harness is",
                "none",
                "no unit",
                "none",
                false,
                new Wiring(CHANNELS, 110, handle, 4, List.of(), Set.of(), new Design(options)),
                file,
                List.of(),
                List.of(),
                steps,
                List.of(),
                List.of(),
                List.of());
    }
}
