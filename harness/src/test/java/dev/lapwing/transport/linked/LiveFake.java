package dev.lapwing.transport.linked;

import dev.lapwing.link.FakePoints;
import dev.lapwing.link.bench.ForwardingPoints;
import dev.lapwing.link.bench.LivePoints;

/** Terminals that a test sets and reads, with a clock that gains a tenth and an input that changes at a set time. */
final class LiveFake implements ForwardingPoints, LivePoints {
    final FakePoints points = new FakePoints();
    long passedUs;
    long edgeUs = Long.MAX_VALUE;
    long readUs;

    @Override
    public FakePoints to() {
        return points;
    }

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
}
