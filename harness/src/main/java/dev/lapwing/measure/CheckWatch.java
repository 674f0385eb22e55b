package dev.lapwing.measure;

import dev.lapwing.plan.Check;
import dev.lapwing.plan.PlannedExpectation;

/**
 * Tells, while a run is on, when nothing that may still come can change what an expectation measures, so that the run
 * can go on. It uses the evaluators that {@link Measurement} uses afterwards.
 */
public final class CheckWatch {
    /** So long after the last moment of interest reports are waited for, in µs, before going on without them. */
    private static final long GRACE_US = 2_000_000;

    private final PlannedExpectation expectation;
    private final long originUs;
    private final Recording recording;
    private boolean decided;

    private CheckWatch(PlannedExpectation expectation, long originUs, Recording recording) {
        this.expectation = expectation;
        this.originUs = originUs;
        this.recording = recording;
    }

    /**
     * @param originUs  bench time that the expectation's times count from, in µs
     * @param recording what is being recorded; grows
     */
    public static CheckWatch of(PlannedExpectation expectation, long originUs, Recording recording) {
        return new CheckWatch(expectation, originUs, recording);
    }

    public PlannedExpectation expectation() {
        return expectation;
    }

    public long originUs() {
        return originUs;
    }

    /**
     * True once nothing later can change the measured quantity; stays true. Never for an expectation that lasts as long
     * as the steps around it.
     *
     * @param nowUs bench time now, in µs
     */
    public boolean decided(long nowUs) {
        decided = decided || decide(nowUs);
        return decided;
    }

    private boolean decide(long nowUs) {
        Check check = expectation.check();
        if (check.watchSeconds().isEmpty()) {
            return false;
        }
        long endUs = originUs + Math.round(check.watchSeconds().getAsDouble() * 1e6);
        return nowUs >= endUs + GRACE_US;
    }
}
