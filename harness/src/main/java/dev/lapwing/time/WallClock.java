package dev.lapwing.time;

import java.time.Instant;

/** The date and time of day, for records and reports; may jump. Never for durations. */
public interface WallClock {
    Instant now();

    /** The machine's own wall clock. */
    static WallClock system() {
        return Instant::now;
    }
}
