package dev.lapwing.link.bench;

import dev.lapwing.link.BenchCard;
import dev.lapwing.link.HostMessage;
import dev.lapwing.link.LinkPoint;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.Map;

/** The outputs: what each puts out, and the ramps under way. */
final class OutputBank {
    /** How finely a ramp is drawn. */
    private static final long RAMP_STEP_US = 1_000;

    private final BenchPoints points;
    private final Map<String, LinkPoint> outputs = new LinkedHashMap<>();
    private final Map<String, Integer> values = new HashMap<>();
    private final Map<String, Ramp> ramps = new LinkedHashMap<>();
    private long rampUs = Long.MAX_VALUE;

    /** Straight from one value to another. */
    private record Ramp(int from, int to, long startUs, long overUs) {
        int at(long nowUs) {
            double share = Math.min(1, (double) (nowUs - startUs) / overUs);
            return (int) (from + Math.round(((double) to - from) * share));
        }

        boolean over(long nowUs) {
            return nowUs - startUs >= overUs;
        }
    }

    OutputBank(BenchCard card, BenchPoints points) {
        this.points = points;
        card.points().stream().filter(point -> point.kind().output()).forEach(point -> {
            outputs.put(point.name(), point);
            values.put(point.name(), point.safe());
        });
    }

    /** Drives every output at its safe value, and ends all ramps. */
    long safe(long nowUs) {
        ramps.clear();
        rampUs = Long.MAX_VALUE;
        Map<String, Integer> safe = new LinkedHashMap<>();
        outputs.values().forEach(point -> safe.put(point.name(), point.safe()));
        return drive(safe, nowUs);
    }

    /** Executes a set whose points have been checked; the measured instant of it. */
    long execute(HostMessage.Set set, long nowUs) {
        Map<String, Integer> atOnce = new LinkedHashMap<>();
        set.points().forEach((name, value) -> {
            ramps.remove(name);
            if (set.overUs() > 0 && outputs.get(name).analogOutput()) {
                ramps.put(name, new Ramp(values.get(name), value, nowUs, set.overUs()));
            } else {
                atOnce.put(name, value);
            }
        });
        rampUs = ramps.isEmpty() ? Long.MAX_VALUE : nowUs;
        return atOnce.isEmpty() ? nowUs : drive(atOnce, nowUs);
    }

    /** Goes on with the ramps under way. */
    void step(long nowUs) {
        if (nowUs < rampUs) {
            return;
        }
        Map<String, Integer> moved = new LinkedHashMap<>();
        ramps.forEach((name, ramp) -> {
            if (ramp.at(nowUs) != values.get(name)) {
                moved.put(name, ramp.at(nowUs));
            }
        });
        ramps.values().removeIf(ramp -> ramp.over(nowUs));
        rampUs = ramps.isEmpty() ? Long.MAX_VALUE : nowUs + RAMP_STEP_US;
        if (!moved.isEmpty()) {
            drive(moved, nowUs);
        }
    }

    long dueUs() {
        return rampUs;
    }

    private long drive(Map<String, Integer> counts, long nowUs) {
        values.putAll(counts);
        return points.drive(counts, nowUs);
    }
}
