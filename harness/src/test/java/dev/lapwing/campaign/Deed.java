package dev.lapwing.campaign;

import static dev.lapwing.campaign.Reach.BEAT_MS;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.time.MonotonicClock;
import dev.lapwing.transport.linked.FarCab;
import dev.lapwing.transport.linked.LinkedBench;
import dev.lapwing.transport.linked.PacedClock;
import dev.lapwing.transport.linked.WatchedBench;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;

/** What is done to a run from outside at its moment, on a thread of its own. */
final class Deed implements AutoCloseable {
    private final DrawnFault fault;
    private final Reach reach;
    private final SharedCarrier shared;
    private final WatchedBench bench;
    private final long seed;
    private final CountDownLatch closed = new CountDownLatch(1);
    private final List<String> broken = Collections.synchronizedList(new ArrayList<>());
    private Runnable toTheHost = () -> {};
    private final Thread thread = new Thread(this::run, "deed of the campaign");

    Deed(DrawnFault fault, Reach reach, SharedCarrier shared, WatchedBench bench, long seed) {
        this.fault = fault;
        this.reach = reach;
        this.shared = shared;
        this.bench = bench;
        this.seed = seed;
    }

    Reach reach() {
        return reach;
    }

    /** Promises that it saw broken. */
    List<String> broken() {
        return broken;
    }

    /** From the first word of the host on its moment is awaited. */
    void begin(Runnable whatBefallsTheHost) {
        toTheHost = whatBefallsTheHost;
        thread.start();
    }

    private void run() {
        try {
            boolean over = false;
            while (!over && !bench.terminals().heard()) {
                over = closed.await(1, TimeUnit.MILLISECONDS);
            }
            if (!over && !closed.await(fault.atNanos(), TimeUnit.NANOSECONDS)) {
                befall();
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } catch (IOException e) {
            // A stranger whose broker is gone has nothing more to say.
            broken.add("the deed failed: " + e);
        }
    }

    private void befall() throws IOException, InterruptedException {
        switch (fault.kind()) {
            case SECOND_HELLO -> shared.secondHello();
            case SECOND_HOST -> secondHost();
            // That it makes safe at once is watched at the terminals.
            case TOLD_SAFE -> shared.toldSafe();
            case HOST_LINK_GONE, HOST_KILLED, HOST_TERMINATED -> toTheHost.run();
            default -> reach.befall(fault, new SplittableRandom(seed + 2));
        }
    }

    private void secondHost() {
        boolean armed = bench.armed();
        try (Bench second = LinkedBench.open(
                FarCab.reached(reach.choice()),
                BEAT_MS,
                FarCab.host(2 * seed + 2),
                reach.host(FarCab.token(2 * seed + 2)),
                new PacedClock(MonotonicClock.system(), 1))) {
            if (armed && bench.armed()) {
                broken.add("a second host was let in at " + second.identity() + " while it was armed");
            }
        } catch (BenchFailure e) {
            // Turned away, as it must be.
        }
    }

    @Override
    public void close() {
        closed.countDown();
        try {
            thread.join();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
