package dev.lapwing.link.bench;

import java.util.List;
import java.util.Map;

/** The terminals that a bench's session reads and drives. Called only from within the session's own methods. */
public interface BenchPoints {
    /** Instead of a count: there is no good reading now. */
    int NOT_READABLE = Integer.MIN_VALUE;

    /** Count at a terminal at bench time {@code nowUs}; of an output, what is read back there. */
    int read(String point, long nowUs);

    /**
     * Drives outputs together.
     *
     * @param counts by name of the output, each within its range
     * @return the measured instant in µs of bench time, not after {@code nowUs}
     */
    long drive(Map<String, Integer> counts, long nowUs);

    /** How long after its due time the next timed set will be driven, in µs, not negative; drawn once for each. */
    default long setDelayUs() {
        return 0;
    }

    /** How long a self-test takes, in µs, at most 10 s. */
    default long selfTestUs() {
        return 0;
    }

    /** Points that fail the self-test that ends now. */
    default List<String> failedPoints(long nowUs) {
        return List.of();
    }
}
