package dev.lapwing.time;

/** Never goes back; its zero means nothing. For durations and deadlines of the host only, never to time a brake. */
public interface MonotonicClock {
    /** A reading in ns, to be subtracted from another of the same clock. */
    long nanos();

    /** The machine's own monotonic clock. */
    static MonotonicClock system() {
        return System::nanoTime;
    }
}
