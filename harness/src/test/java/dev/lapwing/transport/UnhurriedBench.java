package dev.lapwing.transport;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchListener;
import java.util.Map;

/** A bench in this process whose commands are given as early as those of one that is served so much faster. */
record UnhurriedBench(Bench bench, double speed) implements Bench {
    @Override
    public long lagUs() {
        return Math.round(bench.lagUs() * speed);
    }

    @Override
    public Identity identity() {
        return bench.identity();
    }

    @Override
    public long nowUs() {
        return bench.nowUs();
    }

    @Override
    public void arm() throws BenchFailure {
        bench.arm();
    }

    @Override
    public void set(long id, Map<String, Integer> counts, long atUs, long overUs) throws BenchFailure {
        bench.set(id, counts, atUs, overUs);
    }

    @Override
    public void advance(long untilUs, BenchListener listener) throws BenchFailure {
        bench.advance(untilUs, listener);
    }

    @Override
    public void safe() {
        bench.safe();
    }

    @Override
    public void close() {
        bench.close();
    }
}
