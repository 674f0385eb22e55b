package dev.lapwing.transport.linked;

import dev.lapwing.link.bench.LivePoints;
import java.util.List;
import java.util.Map;

/**
 * Terminals as a bench sees them that started anew: their surroundings go on, its own clock begins at 0.
 *
 * @param points as before
 * @param bootUs what the clock would show at the new start, in µs
 */
record SinceBoot(LivePoints points, long bootUs) implements LivePoints {
    @Override
    public long us(long nanos) {
        return points.us(nanos) - bootUs;
    }

    @Override
    public long nanos(long us) {
        return points.nanos(us + bootUs);
    }

    @Override
    public void passUntil(long us, Edges edges) {
        points.passUntil(us + bootUs, (point, level, atUs) -> edges.edge(point, level, Math.max(0, atUs - bootUs)));
    }

    @Override
    public int read(String point, long nowUs) {
        return points.read(point, nowUs + bootUs);
    }

    @Override
    public long drive(Map<String, Integer> counts, long nowUs) {
        return points.drive(counts, nowUs + bootUs) - bootUs;
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
        return points.failedPoints(nowUs + bootUs);
    }
}
