package dev.lapwing.plant;

import java.util.Arrays;
import java.util.List;

/** The positions of a train's triple valves. */
final class TripleValves {
    final TripleState[] state;

    private final double[] apply;
    private final double[] lap;
    private final double[] reapply;
    private final double[] release;
    private final boolean[] inert;

    TripleValves(List<TripleValveSpec> specs) {
        state = new TripleState[specs.size()];
        apply = specs.stream().mapToDouble(TripleValveSpec::applyPascals).toArray();
        lap = specs.stream().mapToDouble(TripleValveSpec::lapPascals).toArray();
        reapply = specs.stream().mapToDouble(TripleValveSpec::reapplyPascals).toArray();
        release = specs.stream().mapToDouble(TripleValveSpec::releasePascals).toArray();
        inert = new boolean[specs.size()];
        releaseAll();
    }

    void releaseAll() {
        Arrays.fill(state, TripleState.RELEASE);
    }

    void inert(int k, boolean stuck) {
        inert[k] = stuck;
        if (stuck) {
            state[k] = TripleState.RELEASE;
        }
    }

    /** Moves one valve by the difference of auxiliary reservoir and brake pipe, in Pa, and says where it stands. */
    TripleState move(int k, double difference) {
        TripleState before = state[k];
        TripleState now = before;
        if (now == TripleState.RELEASE) {
            if (difference > apply[k] && !inert[k]) {
                now = TripleState.APPLY;
            }
        } else if (difference < -release[k]) {
            now = TripleState.RELEASE;
        } else if (now == TripleState.APPLY) {
            if (difference < lap[k]) {
                now = TripleState.LAP;
            }
        } else if (difference > reapply[k]) {
            now = TripleState.APPLY;
        }
        if (now != before) {
            state[k] = now;
        }
        return now;
    }
}
