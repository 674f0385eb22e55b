package dev.lapwing.transport.linked;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchListener;
import dev.lapwing.evidence.RunRecord;
import dev.lapwing.plan.Course;
import java.util.Iterator;
import java.util.Map;

/**
 * The simulated bench, driven at the instants at which another run drove its own: a link's delays lengthen the time
 * between two commands, and what is measured after the second depends on it. So both runs do the same to the train, and
 * what still differs was measured differently.
 */
public final class SameInstants implements Bench {
    private final Bench bench;
    private final Iterator<Course.Executed> executed;
    private long laterUs;
    private boolean first = true;

    /** @param other the run that is followed, of the same sequence */
    public SameInstants(Bench bench, RunRecord other) {
        this.bench = bench;
        this.executed = other.course().executed().iterator();
    }

    /** The first command comes when it will; from there on each as long after it as in the other run. */
    @Override
    public void set(long id, Map<String, Integer> counts, long atUs, long overUs) throws BenchFailure {
        long dueUs = atUs;
        if (executed.hasNext()) {
            long otherUs = executed.next().atUs().orElse(atUs - laterUs);
            laterUs = first ? atUs - otherUs : laterUs;
            first = false;
            dueUs = Math.max(atUs, otherUs + laterUs);
        }
        bench.set(id, counts, dueUs, overUs);
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
