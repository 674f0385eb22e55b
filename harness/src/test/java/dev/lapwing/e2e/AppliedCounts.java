package dev.lapwing.e2e;

import dev.lapwing.link.bench.ForwardingLivePoints;
import dev.lapwing.link.bench.LivePoints;
import java.util.Optional;

/** Terminals of which one input reads what a test applies to it, a few counts of noise beside it. */
final class AppliedCounts implements ForwardingLivePoints {
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
    public LivePoints to() {
        return points;
    }

    @Override
    public int read(String point, long nowUs) {
        int truth = points.read(point, nowUs);
        turn = (turn + 1) % (2 * NOISE + 1);
        return point.equals(input)
                ? applied.map(counts -> counts + turn - NOISE).orElse(truth)
                : truth;
    }
}
