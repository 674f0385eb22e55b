package dev.lapwing;

import java.time.Duration;
import org.awaitility.Awaitility;
import org.awaitility.core.ConditionFactory;

/**
 * Waiting until something is so: far longer than the slowest machine needs, and only until it is. Whatever has a limit
 * of its own in time is not measured by waiting: a bench's own stamps tell when something was, however late it is seen.
 */
public final class Patience {
    private static final Duration ENOUGH = Duration.ofMinutes(2);

    private Patience() {}

    /**
     * Fails after two minutes. What another test lets its own threads throw meanwhile is no matter of who waits here:
     * tests run beside each other in one process.
     *
     * @param what is waited for, as it stands in the failure
     */
    public static ConditionFactory await(String what) {
        return Awaitility.await(what).dontCatchUncaughtExceptions().atMost(ENOUGH);
    }
}
