package dev.lapwing.run;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.evidence.RunLog;
import dev.lapwing.measure.GrowingRecording;
import dev.lapwing.plan.Course.Trouble;

/**
 * Lets bench time pass in slices, and between two slices looks at everything that may end a run: the bench, the
 * operator, and a bench time that stands still.
 */
final class BenchTime {
    /** Longest stretch of bench time in which nobody looks at the operator's stop, in µs. */
    static final long SLICE_US = 20_000;
    /** How many lags of the bench a report of it may be late; only conditions on wires wait for it. */
    private static final int REPORT_LAGS = 10;
    /** So many lags of the bench after the end reports are still taken, whether any are awaited or not. */
    private static final int DRAIN_LAGS = 2;
    /** So many more of them reports that are awaited are waited for: longer than a link waits for what it misses. */
    private static final int AWAITED_LAGS = 60;
    /** Bench time must go on within so many calls. */
    private static final int STANDING_CALLS = 1000;

    private final Bench bench;
    private final BenchReports reports;
    private final GrowingRecording recording;
    private final OpenWindows windows;
    private final Progress progress;
    private final OperatorStop operator;
    private int standing;
    private boolean tidying;
    private long drainedUs;

    BenchTime(
            Bench bench,
            RunLog log,
            GrowingRecording recording,
            BenchReports reports,
            Progress progress,
            OperatorStop operator) {
        this.bench = bench;
        this.reports = reports;
        this.recording = recording;
        this.progress = progress;
        this.operator = operator;
        windows = new OpenWindows(log, progress, recording);
    }

    long nowUs() {
        return bench.nowUs();
    }

    /** How late a report may be that the bench has made, in µs. */
    long reportsLateUs() {
        return REPORT_LAGS * bench.lagUs();
    }

    OpenWindows windows() {
        return windows;
    }

    /** From now on only a second wish of the operator's ends what is done. */
    void tidying() {
        tidying = true;
    }

    /** Lets bench time pass up to that time, but no longer than a slice. */
    void slice(long untilUs) throws BenchFailure, CutShort {
        look();
        advance(untilUs);
        windows.look(bench.nowUs());
        progress.passed(bench.nowUs(), recording);
        look();
    }

    void passUntil(long untilUs) throws BenchFailure, CutShort {
        while (bench.nowUs() < untilUs) {
            slice(untilUs);
        }
    }

    /**
     * Takes all that the bench has to report of the time until now, which comes later by what its channels delay: what
     * was lost of it on the way is told as lost.
     */
    void drain() throws BenchFailure {
        long nowUs = bench.nowUs();
        long endUs = nowUs + recording.delayUs();
        drain(endUs + DRAIN_LAGS * bench.lagUs());
        long patienceUs = bench.nowUs() + AWAITED_LAGS * bench.lagUs();
        while (bench.awaits(endUs)) {
            if (bench.nowUs() >= patienceUs) {
                throw new BenchFailure(
                        "the bench did not report all that happened until the end of the run; look at its link");
            }
            drain(bench.nowUs() + SLICE_US);
        }
        drainedUs = nowUs;
    }

    /** Bench time until which everything that happened was taken; now while that was never done. */
    long drainedUs() {
        return drainedUs == 0 ? bench.nowUs() : drainedUs;
    }

    /** Takes what the bench still reports, whatever it is, up to that bench time. */
    void drain(long untilUs) throws BenchFailure {
        while (bench.nowUs() < untilUs) {
            advance(untilUs);
        }
        progress.passed(bench.nowUs(), recording);
    }

    private void advance(long untilUs) throws BenchFailure {
        long beforeUs = bench.nowUs();
        bench.advance(Math.min(untilUs, beforeUs + SLICE_US), reports);
        long nowUs = bench.nowUs();
        if (nowUs < beforeUs) {
            throw new BenchFailure("the bench's clock went back from " + beforeUs + " us to " + nowUs
                    + " us; it was restarted, or its firmware is wrong");
        }
        standing = nowUs == beforeUs ? standing + 1 : 0;
        if (standing >= STANDING_CALLS) {
            throw new BenchFailure(
                    "the bench's clock stands still at " + nowUs + " us; look at its link and its power");
        }
        recording.reportedUntil(nowUs - reportsLateUs());
    }

    /** Ends the run if there is a reason to. */
    void look() throws CutShort {
        if (reports.safe().isPresent()) {
            // A fault that it told before says more than that there was one.
            String fault = reports.fault().map(told -> "; " + told).orElse("");
            throw cutShort(Trouble.Kind.BENCH, BecameSafe.told(reports.safe().get()) + fault);
        }
        if (reports.fault().isPresent()) {
            throw cutShort(
                    Trouble.Kind.BENCH,
                    "the bench reports a fault of its own: " + reports.fault().get());
        }
        if (operator.askedAgain() || operator.asked() && !tidying) {
            throw cutShort(Trouble.Kind.OPERATOR, "the operator stopped the run");
        }
    }

    private CutShort cutShort(Trouble.Kind kind, String why) {
        return new CutShort(new Trouble(kind, bench.nowUs(), why));
    }
}
