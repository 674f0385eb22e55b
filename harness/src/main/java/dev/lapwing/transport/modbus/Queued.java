package dev.lapwing.transport.modbus;

import dev.lapwing.bench.BenchListener;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.function.Consumer;

/** Reports on their way from the line's thread to the runner's; bounded, for any thread. */
final class Queued {
    private static final int REPORTS_MAX = 50_000;

    private final Deque<Consumer<BenchListener>> reports = new ArrayDeque<>();

    /** @return false if there is no room: whoever should take them has stopped */
    synchronized boolean add(Consumer<BenchListener> report) {
        if (reports.size() >= REPORTS_MAX) {
            return false;
        }
        reports.add(report);
        notifyAll();
        return true;
    }

    synchronized void clear() {
        reports.clear();
    }

    synchronized boolean isEmpty() {
        return reports.isEmpty();
    }

    /** Waits so long at most until there is a report. */
    synchronized void await(long ms) throws InterruptedException {
        if (reports.isEmpty() && ms > 0) {
            wait(ms);
        }
    }

    /** Tells everything that is there. */
    void tell(BenchListener listener) {
        for (Consumer<BenchListener> next = poll(); next != null; next = poll()) {
            next.accept(listener);
        }
    }

    private synchronized Consumer<BenchListener> poll() {
        return reports.poll();
    }
}
