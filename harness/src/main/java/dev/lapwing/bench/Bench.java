package dev.lapwing.bench;

import java.util.Map;

/**
 * A bench as the runner sees it, whatever carries it. Times are the bench's own clock in µs. For one thread, but for
 * {@link #safe()}, which any thread may call at any time.
 */
public interface Bench extends AutoCloseable {

    /** Who it is. */
    Identity identity();

    /** The bench's own time now, in µs; on a real link an estimate. */
    long nowUs();

    /** Longest time, in µs, that a command is on its way to the bench and its answer back; of a link as measured. */
    default long lagUs() {
        return 50_000;
    }

    /** Makes the outputs live at their safe values and starts the streams of the bench file. */
    void arm() throws BenchFailure;

    /**
     * Starts the streams of the bench file and makes nothing live: for whoever only looks. No run begins so.
     *
     * @throws BenchFailure if this kind of bench cannot be read while it is safe
     */
    default void watch() throws BenchFailure {
        throw new BenchFailure("this kind of bench tells its readings only while it is armed");
    }

    /**
     * Drives outputs together at a bench time. Returns at once; what was really done when is told to the listener.
     *
     * @param id     of this command, rising
     * @param counts by name of the output point
     * @param atUs   bench time at which it is due, not in the past
     * @param overUs time over which analogue outputs ramp, in µs; 0 for a step
     */
    void set(long id, Map<String, Integer> counts, long atUs, long overUs) throws BenchFailure;

    /**
     * Lets bench time go on and tells the listener everything that was reported, in the order of the bench's numbers.
     * Returns at {@code untilUs} or earlier (after a batch), never with bench time standing still for long.
     */
    void advance(long untilUs, BenchListener listener) throws BenchFailure;

    /**
     * Whether {@link #advance} may still tell of that bench time, in µs, or an earlier one: reports that are under way,
     * or that they were lost.
     */
    default boolean awaits(long us) {
        return false;
    }

    /** Says that the bench's user is at work, though bench time is not let go on: a bench that is armed stays so. */
    default void alive() {}

    /** All outputs to their safe values, disarmed. May be called again, from any thread and in any state. */
    void safe();

    /** Makes safe if that has not been done, and lets go of everything. */
    @Override
    void close();

    /**
     * Who a bench is.
     *
     * @param name      its name
     * @param boot      changes with each start of the bench
     * @param simulated true where nothing of it is real
     */
    record Identity(String name, String boot, boolean simulated) {}
}
