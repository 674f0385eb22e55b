package dev.lapwing.campaign;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.transport.linked.BenchCarrier;
import dev.lapwing.transport.linked.HostCarrier;
import java.io.IOException;
import java.util.SplittableRandom;

/** The link of one run, with its two ends, and what can befall it from outside. */
interface Reach extends AutoCloseable {
    /** Heartbeat limit that hosts ask for, in ms. */
    int BEAT_MS = 500;

    /** How a host is told to reach the bench. */
    LinkChoice choice();

    /** The same as a line of a bench file. */
    String inBenchFile();

    /** The bench's end; closed by whoever uses it. */
    BenchCarrier bench();

    /** Another host's end. */
    HostCarrier host(String session) throws BenchFailure;

    /** Lets it happen; may last as long as the fault does. */
    void befall(DrawnFault fault, SplittableRandom random) throws IOException, InterruptedException;

    @Override
    void close();
}
