package dev.lapwing.link;

import dev.lapwing.bench.PointKind;
import dev.lapwing.link.bench.BenchPoints;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Terminals that a test sets and reads: inputs hold what they are given, outputs are read back as driven. */
public final class FakePoints implements BenchPoints {
    private final Map<String, Integer> counts = new HashMap<>();
    private final List<Drive> drives = new ArrayList<>();
    public final List<String> failing = new ArrayList<>();
    public long selfTestUs;
    public long setDelayUs;

    /** What was driven when. */
    public record Drive(long atUs, Map<String, Integer> counts) {}

    /** A bench with two analogue inputs, a digital one, and an output of each kind. */
    public static BenchCard card() {
        return card(8, 300, true);
    }

    public static BenchCard card(int queue, int maxBeatMs, boolean dense) {
        return new BenchCard(
                1,
                "bay-2",
                "90c4a1f3",
                50,
                queue,
                maxBeatMs,
                4096,
                dense,
                List.of(
                        new LinkPoint("P1", PointKind.ANALOG_IN, 0, 4095, 0, 10, 800, LinkPoint.UNSAID),
                        new LinkPoint("P2", PointKind.ANALOG_IN, 0, 65535, 0, 10, 800, LinkPoint.UNSAID),
                        new LinkPoint("D1", PointKind.DIGITAL_IN, 0, 1, 0, 5, LinkPoint.UNSAID, 200),
                        point("W1", PointKind.DIGITAL_OUT, 1, 0),
                        point("W2", PointKind.DIGITAL_OUT, 1, 1),
                        point("H1", PointKind.ANALOG_OUT, 1_000_000, 0),
                        point("F1", PointKind.PULSE_OUT, 100_000, 0),
                        point("M1", PointKind.PWM_OUT, 1000, 500)));
    }

    private static LinkPoint point(String name, PointKind kind, int max, int safe) {
        return new LinkPoint(name, kind, 0, max, safe, LinkPoint.UNSAID, LinkPoint.UNSAID, LinkPoint.UNSAID);
    }

    public FakePoints() {
        card().points().forEach(point -> counts.put(point.name(), point.safe()));
        counts.put("P1", 1000);
        counts.put("P2", 2000);
    }

    public void put(String point, int count) {
        counts.put(point, count);
    }

    public int get(String point) {
        return counts.get(point);
    }

    /** Whether every output is at its safe value. */
    public boolean allSafe() {
        return card().points().stream()
                .filter(point -> point.kind().output())
                .allMatch(point -> counts.get(point.name()) == point.safe());
    }

    /** What was driven since this was asked before. */
    public List<Drive> takeDrives() {
        List<Drive> taken = List.copyOf(drives);
        drives.clear();
        return taken;
    }

    @Override
    public int read(String point, long nowUs) {
        return counts.get(point);
    }

    @Override
    public long drive(Map<String, Integer> driven, long nowUs) {
        counts.putAll(driven);
        drives.add(new Drive(nowUs, Map.copyOf(driven)));
        return nowUs;
    }

    @Override
    public long setDelayUs() {
        return setDelayUs;
    }

    @Override
    public long selfTestUs() {
        return selfTestUs;
    }

    @Override
    public List<String> failedPoints(long nowUs) {
        return failing;
    }
}
