package dev.lapwing.transport.linked;

import dev.lapwing.link.bench.LivePoints;
import dev.lapwing.transport.linked.BenchFault.DeadTransducer;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Terminals some of whose analogue inputs die at their moment. */
final class DeadInputs implements LivePoints {
    private final LivePoints points;
    private final Map<String, TimedFault> deaths = new HashMap<>();
    private final Map<String, Integer> held = new HashMap<>();

    DeadInputs(LivePoints points, List<TimedFault> faults) {
        this.points = points;
        for (TimedFault fault : faults) {
            if (fault.fault() instanceof DeadTransducer dead) {
                deaths.put(dead.point(), fault);
            }
        }
    }

    @Override
    public int read(String point, long nowUs) {
        TimedFault death = deaths.get(point);
        if (death == null || !(death.fault() instanceof DeadTransducer dead) || nanos(nowUs) < death.atNanos()) {
            return points.read(point, nowUs);
        }
        return held.computeIfAbsent(point, key -> dead.counts().orElseGet(() -> points.read(key, nowUs)));
    }

    @Override
    public long us(long nanos) {
        return points.us(nanos);
    }

    @Override
    public long nanos(long us) {
        return points.nanos(us);
    }

    @Override
    public void passUntil(long us, Edges edges) {
        points.passUntil(us, edges);
    }

    @Override
    public long drive(Map<String, Integer> counts, long nowUs) {
        return points.drive(counts, nowUs);
    }

    @Override
    public long setDelayUs() {
        return points.setDelayUs();
    }

    @Override
    public long selfTestUs() {
        return points.selfTestUs();
    }

    @Override
    public List<String> failedPoints(long nowUs) {
        return points.failedPoints(nowUs);
    }
}
