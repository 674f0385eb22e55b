package dev.lapwing.link.bench;

import dev.lapwing.link.HostMessage.Limit;
import dev.lapwing.link.SafeReason;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;

/** What keeps one arming alive: beats that are fresh, and limited inputs that read inside. */
final class ArmedWatch {
    /** Half of what the contract allows between two scans. */
    private static final long SCAN_US = 1_000;

    private static final long OUTSIDE_US_MAX = 20_000;

    private final long limitUs;
    private final Map<String, Limit> limits;
    private final Map<String, Long> lastInsideUs = new HashMap<>();
    private long lastBeatUs;
    private long scanUs;

    ArmedWatch(long armedUs, int beatMs, Map<String, Limit> limits) {
        this.limitUs = beatMs * 1_000L;
        this.limits = limits;
        this.lastBeatUs = armedUs;
        this.scanUs = limits.isEmpty() ? Long.MAX_VALUE : armedUs;
        limits.keySet().forEach(point -> lastInsideUs.put(point, armedUs));
    }

    int limitMs() {
        return (int) (limitUs / 1_000);
    }

    boolean limits(String point) {
        return limits.containsKey(point);
    }

    /** A beat counts only if what its host has seen of this bench is fresh, and is not from the time to come. */
    void beat(long seenUs, long nowUs) {
        if (nowUs - limitUs <= seenUs && seenUs <= nowUs) {
            lastBeatUs = nowUs;
        }
    }

    /** Why the bench must become safe now, if it must. */
    Optional<SafeReason> look(BenchPoints points, long nowUs) {
        if (nowUs >= scanUs) {
            scanUs = nowUs + SCAN_US;
            for (Map.Entry<String, Limit> entry : limits.entrySet()) {
                if (inside(points, entry.getKey(), entry.getValue(), nowUs)) {
                    lastInsideUs.put(entry.getKey(), nowUs);
                } else if (nowUs - lastInsideUs.get(entry.getKey()) >= OUTSIDE_US_MAX) {
                    return Optional.of(SafeReason.LIMIT);
                }
            }
        }
        return nowUs - lastBeatUs >= limitUs ? Optional.of(SafeReason.BEAT_LOST) : Optional.empty();
    }

    static boolean inside(BenchPoints points, String point, Limit limit, long nowUs) {
        int count = points.read(point, nowUs);
        return count != BenchPoints.NOT_READABLE && limit.holds(count);
    }

    long dueUs() {
        return Math.min(scanUs, lastBeatUs + limitUs);
    }
}
