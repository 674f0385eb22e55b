package dev.lapwing.transport.linked;

import dev.lapwing.bench.Bench;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;

/** A bench whose user is at work. */
public final class AtWork {
    private static final long EVERY_MS = 50;

    private AtWork() {}

    /** Anything that may throw what it likes. */
    public interface Work {
        void done() throws Exception;
    }

    /** Does the work, while the bench is told from a thread of its own that somebody is there. */
    public static void at(Bench bench, Work work) throws Exception {
        ScheduledExecutorService telling = Executors.newSingleThreadScheduledExecutor();
        try {
            telling.scheduleAtFixedRate(bench::alive, 0, EVERY_MS, TimeUnit.MILLISECONDS);
            work.done();
        } finally {
            telling.shutdownNow();
        }
    }
}
