package dev.lapwing.transport.linked;

import dev.lapwing.link.bench.ForwardingLivePoints;
import dev.lapwing.link.bench.LivePoints;
import dev.lapwing.transport.linked.BenchFault.DeadTransducer;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Terminals some of whose analogue inputs die at their moment. */
final class DeadInputs implements ForwardingLivePoints {
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
    public LivePoints to() {
        return points;
    }

    @Override
    public int read(String point, long nowUs) {
        TimedFault death = deaths.get(point);
        if (death == null || !(death.fault() instanceof DeadTransducer dead) || nanos(nowUs) < death.atNanos()) {
            return points.read(point, nowUs);
        }
        return held.computeIfAbsent(point, key -> dead.counts().orElseGet(() -> points.read(key, nowUs)));
    }
}
