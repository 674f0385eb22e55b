package dev.lapwing.simulated;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.BenchListener;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.naming.Signal;
import dev.lapwing.uncertainty.Streams;

/**
 * The input side of a simulated bench, looking at a truth that was computed before: the same transducers, edge
 * detectors and clock as {@link SimulatedBench}, without plant and unit. Cheap enough to measure one truth thousands
 * of times.
 */
public final class Replay {
    private static final long STEP_NS = 1_000_000;

    private final SimulatedClock clock;
    private final InputSide inputs;
    private long nowNs;
    /** The next instant at which the truth is noted, where single counts are read. */
    private long noted;

    /** A truth over time. */
    public interface Source {
        /**
         * The true value at a true time since the start, in the base unit of the signal's dimension; straight lines
         * between whole milliseconds.
         */
        double at(Signal signal, long trueNs);
    }

    /**
     * @param file    points, inputs and streams of the bench
     * @param figures what it gets wrong
     * @param seed    of everything that is drawn
     * @throws BenchFailure if the file does not fit together
     */
    public Replay(BenchFile file, LinkChoice.Simulated figures, Source source, long seed) throws BenchFailure {
        Streams streams = new Streams(seed);
        clock = new SimulatedClock(
                figures.clockError() * (2 * streams.of("clock").nextDouble() - 1));
        inputs = new InputSide(file, figures, signal -> () -> source.at(signal, nowNs), clock, streams);
    }

    /** What the bench's clock shows at a true time since the start, in µs. */
    public long benchUs(long trueNs) {
        return clock.us(trueNs);
    }

    /** The count of a point at a true time since the start; times must not fall. Not to be mixed with {@link #play}. */
    public int read(String point, long trueNs) {
        for (; noted < trueNs + STEP_NS; noted += STEP_NS) {
            nowNs = noted;
            inputs.note(noted);
        }
        nowNs = trueNs;
        return inputs.read(point, trueNs);
    }

    /** Reports everything up to a true time since the start. To be called once. */
    public void play(long untilNs, BenchListener listener) throws BenchFailure {
        inputs.note(0);
        inputs.start(clock.us(0));
        inputs.greet(0, listener);
        for (nowNs = STEP_NS; nowNs <= untilNs; nowNs += STEP_NS) {
            inputs.note(nowNs);
            inputs.look(nowNs, listener);
        }
        inputs.flush(listener);
    }
}
