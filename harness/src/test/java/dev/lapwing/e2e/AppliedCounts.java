package dev.lapwing.e2e;

import dev.lapwing.link.bench.LivePoints;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Terminals of which one input reads what a test applies to it, a few counts of noise beside it. */
final class AppliedCounts implements LivePoints {
    private static final int NOISE = 3;

    private final LivePoints points;
    private final String input;
    private volatile Optional<Integer> applied = Optional.empty();
    private int turn;

    AppliedCounts(LivePoints points, String input) {
        this.points = points;
        this.input = input;
    }

    void apply(int counts) {
        applied = Optional.of(counts);
    }

    @Override
    public int read(String point, long nowUs) {
        int truth = points.read(point, nowUs);
        turn = (turn + 1) % (2 * NOISE + 1);
        return point.equals(input)
                ? applied.map(counts -> counts + turn - NOISE).orElse(truth)
                : truth;
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
