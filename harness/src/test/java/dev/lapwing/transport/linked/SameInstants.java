package dev.lapwing.transport.linked;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.ForwardingBench;
import dev.lapwing.evidence.RunRecord;
import dev.lapwing.plan.Course;
import java.util.Iterator;
import java.util.Map;
import java.util.SplittableRandom;

/**
 * The simulated bench, driven at the instants at which another run drove its own: a link's delays lengthen the time
 * between two commands, and what is measured after the second depends on it. So both runs do the same to the train, and
 * what still differs was measured differently.
 */
public final class SameInstants implements ForwardingBench {
    /** Noise inside the unit meets the commands anew where all of them are shifted by some steps of it. */
    private static final long FIRST_WITHIN_US = 50_000;

    private final Bench bench;
    private final Iterator<Course.Executed> executed;
    private final SplittableRandom random;
    private final long withinUs;
    private long laterUs;
    private boolean first = true;

    /**
     * @param other    the run that is followed, of the same sequence
     * @param withinUs each command comes up to so much later, as drawn from the seed
     */
    public SameInstants(Bench bench, RunRecord other, long withinUs, long seed) {
        this.bench = bench;
        this.executed = other.course().executed().iterator();
        this.withinUs = withinUs;
        this.random = new SplittableRandom(seed);
    }

    @Override
    public Bench to() {
        return bench;
    }

    /** The first command comes at any moment; from there on each as long after it as in the other run. */
    @Override
    public void set(long id, Map<String, Integer> counts, long atUs, long overUs) throws BenchFailure {
        long dueUs = atUs;
        if (executed.hasNext()) {
            long otherUs = executed.next().atUs().orElse(atUs - laterUs);
            laterUs = first ? atUs - otherUs + random.nextLong(FIRST_WITHIN_US) : laterUs;
            first = false;
            dueUs = Math.max(atUs, otherUs + laterUs);
        }
        bench.set(id, counts, dueUs + random.nextLong(withinUs + 1), overUs);
    }
}
