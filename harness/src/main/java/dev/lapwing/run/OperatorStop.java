package dev.lapwing.run;

import java.util.concurrent.atomic.AtomicInteger;

/**
 * The operator's wish to stop. Asked for once, the run is cut short and tidied up; asked for again, the bench is made
 * safe without more ado. For any thread; the runner looks at it at least every 20 ms of bench time.
 */
public final class OperatorStop {
    private final AtomicInteger times = new AtomicInteger();

    /** Asks for it; the second time in earnest. */
    public void ask() {
        times.incrementAndGet();
    }

    public boolean asked() {
        return times.get() > 0;
    }

    /** Whether it was asked for more than once. */
    public boolean askedAgain() {
        return times.get() > 1;
    }
}
