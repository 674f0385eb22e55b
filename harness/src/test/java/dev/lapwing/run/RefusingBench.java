package dev.lapwing.run;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.ForwardingBench;

/** A bench that will not be armed, and otherwise does as another. */
record RefusingBench(ScriptedBench to) implements ForwardingBench {
    @Override
    public void arm() throws BenchFailure {
        throw new BenchFailure("the stop button is in");
    }
}
