package dev.lapwing.cli;

import dev.lapwing.bench.Bench;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.Supplier;

/** Work beside a bench that a sequence left armed for the next one. */
final class WhileArmed {
    private static final long LOOK_MS = 50;
    /** Work that takes longer has gone wrong; the bench then makes itself safe. */
    private static final int LOOKS_MAX = (int) (60_000 / LOOK_MS);

    private WhileArmed() {}

    /** Does the work on a thread of its own, and tells the bench that its user is alive, for a minute at most. */
    static <T> T done(Bench bench, Supplier<T> work) {
        ExecutorService worker = Executors.newSingleThreadExecutor(task -> {
            Thread thread = new Thread(task, "lapwing judge");
            thread.setDaemon(true);
            return thread;
        });
        try {
            Future<T> result = worker.submit(work::get);
            for (int looks = 0; looks < LOOKS_MAX; looks++) {
                bench.alive();
                try {
                    return result.get(LOOK_MS, TimeUnit.MILLISECONDS);
                } catch (TimeoutException e) {
                    // Still at work.
                }
            }
            return result.get();
        } catch (ExecutionException e) {
            if (e.getCause() instanceof RuntimeException cause) {
                throw cause;
            }
            throw new IllegalStateException(e.getCause());
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException("stopped while a sequence was judged", e);
        } finally {
            worker.shutdown();
        }
    }
}
