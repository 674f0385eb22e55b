package dev.lapwing.simulated;

import dev.lapwing.bench.BenchListener;
import dev.lapwing.bench.Point;
import dev.lapwing.uncertainty.Streams;
import java.util.SplittableRandom;

/** Reports the changes of one digital input: too short pulses not at all, stamps wrong within the point's bound. */
final class EdgeDetector {
    private final String point;
    private final long glitchNs;
    private final int stampUs;
    private final SimulatedClock clock;
    private final SplittableRandom random;

    private boolean reported;
    private boolean greeted;
    private boolean pending;
    private long sinceNs;
    private long lastUs;

    EdgeDetector(Point point, SimulatedClock clock, Streams streams) {
        this.point = point.name();
        this.clock = clock;
        glitchNs = point.glitchUs() * 1000L;
        stampUs = point.stampUs();
        random = streams.of("edge/" + point.name());
    }

    /** Looks at the level at a true time; times must not fall. */
    void look(boolean level, long nowNs, BenchListener listener) {
        if (!greeted) {
            greeted = true;
            reported = level;
            report(level, clock.us(nowNs), listener);
            return;
        }
        if (pending && nowNs - sinceNs >= glitchNs) {
            pending = false;
            reported = !reported;
            report(reported, clock.us(sinceNs) + error(), listener);
        }
        if (level == reported) {
            pending = false;
        } else if (!pending) {
            pending = true;
            sinceNs = nowNs;
            if (glitchNs == 0) {
                look(level, nowNs, listener);
            }
        }
    }

    private long error() {
        return stampUs == 0 ? 0 : random.nextInt(2 * stampUs + 1) - stampUs;
    }

    private void report(boolean level, long us, BenchListener listener) {
        lastUs = Math.max(us, lastUs + 1);
        listener.edge(point, lastUs, level);
    }
}
