package dev.lapwing.transport.linked;

import dev.lapwing.link.FakePoints;
import dev.lapwing.link.bench.LivePoints;
import java.util.List;
import java.util.Map;

/** Terminals that a test sets and reads, with a clock that gains a tenth and an input that changes at a set time. */
final class LiveFake implements LivePoints {
    final FakePoints points = new FakePoints();
    long passedUs;
    long edgeUs = Long.MAX_VALUE;
    long readUs;

    @Override
    public long us(long nanos) {
        return nanos * 11 / 10_000;
    }

    @Override
    public long nanos(long us) {
        return us * 10_000 / 11;
    }

    @Override
    public void passUntil(long us, Edges edges) {
        passedUs = us;
        if (edgeUs <= us) {
            edges.edge("D1", true, edgeUs);
            edgeUs = Long.MAX_VALUE;
        }
    }

    @Override
    public int read(String point, long nowUs) {
        readUs = nowUs;
        return points.read(point, nowUs);
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
