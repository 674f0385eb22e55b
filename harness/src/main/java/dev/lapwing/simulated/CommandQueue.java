package dev.lapwing.simulated;

import java.util.Comparator;
import java.util.PriorityQueue;
import java.util.SplittableRandom;

/** Timed sets that wait for their instant, in the order in which they are due. Each is executed a little late. */
final class CommandQueue {
    /** As many as may wait. */
    static final int ROOM = 64;

    /**
     * One set.
     *
     * @param points which output points, as the bank numbers them
     * @param counts what they are driven to, in the same order
     * @param dueUs  bench time for which it was asked
     * @param readyNs true time from which it is executed
     * @param overNs time of the ramp
     */
    record Command(long id, int[] points, int[] counts, long dueUs, long readyNs, long overNs) {}

    private final PriorityQueue<Command> waiting =
            new PriorityQueue<>(Comparator.comparingLong(Command::dueUs).thenComparingLong(Command::id));
    private final SplittableRandom random;
    private final long delayNsMax;
    private long lastNs;

    CommandQueue(long delayUsMax, SplittableRandom random) {
        this.random = random;
        delayNsMax = delayUsMax * 1000;
    }

    boolean full() {
        return waiting.size() >= ROOM;
    }

    void add(long id, int[] points, int[] counts, long dueUs, long dueNs, long overNs) {
        long delay = delayNsMax == 0 ? 0 : random.nextLong(delayNsMax + 1);
        waiting.add(new Command(id, points, counts, dueUs, dueNs + delay, overNs));
    }

    /** True time at which the next one is executed; {@link Long#MAX_VALUE} if none waits. */
    long nextNs() {
        Command next = waiting.peek();
        return next == null ? Long.MAX_VALUE : Math.max(next.readyNs(), lastNs);
    }

    /** Takes the next one out, which there must be. */
    Command take() {
        lastNs = nextNs();
        return waiting.remove();
    }

    void drop() {
        waiting.clear();
    }
}
