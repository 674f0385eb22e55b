package dev.lapwing.run;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchListener;
import java.util.Map;

/** A bench that will not be armed, and otherwise does as another. */
record RefusingBench(ScriptedBench bench) implements Bench {
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
        throw new BenchFailure("the stop button is in");
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
    public boolean awaits(long us) {
        return bench.awaits(us);
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
