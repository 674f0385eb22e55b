package dev.lapwing.run;

import dev.lapwing.evidence.RunLog;
import dev.lapwing.measure.CheckWatch;
import dev.lapwing.measure.Recording;
import dev.lapwing.plan.Course.ExpectationWindow;
import dev.lapwing.plan.PlannedExpectation;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.OptionalDouble;

/** The expectations that are being watched. Closes each when it is decided; says nothing of what came of it. */
final class OpenWindows {
    /** A watch that is not decided so long after its time is closed all the same, in µs. */
    private static final long PATIENCE_US = 10_000_000;

    private record Open(CheckWatch watch, long openedUs) {
        OptionalDouble ownSeconds() {
            return watch.expectation().check().watchSeconds();
        }

        boolean over(long nowUs) {
            return watch.decided(nowUs)
                    || ownSeconds().isPresent()
                            && nowUs
                                    >= watch.originUs()
                                            + Math.round(ownSeconds().getAsDouble() * 1e6)
                                            + PATIENCE_US;
        }
    }

    private final RunLog log;
    private final Progress progress;
    private final Recording recording;
    private final List<Open> open = new ArrayList<>();

    OpenWindows(RunLog log, Progress progress, Recording recording) {
        this.log = log;
        this.progress = progress;
        this.recording = recording;
    }

    /** @param originBoundUs bound of the error of their origin, in µs */
    void open(List<PlannedExpectation> expectations, long originUs, long originBoundUs, long nowUs) {
        for (PlannedExpectation expectation : expectations) {
            open.add(new Open(CheckWatch.of(expectation, originUs, originBoundUs, recording), nowUs));
            log.opened(expectation.id(), originUs, nowUs);
            progress.opened(expectation, nowUs);
        }
    }

    /** Closes what is decided. */
    void look(long nowUs) {
        for (Iterator<Open> all = open.iterator(); all.hasNext(); ) {
            Open window = all.next();
            if (window.over(nowUs)) {
                all.remove();
                close(window, nowUs, true);
            }
        }
    }

    /** Whether any of them is still watched for a time of its own. */
    boolean watching(List<PlannedExpectation> expectations) {
        return open.stream().anyMatch(window -> window.ownSeconds().isPresent() && isOf(window, expectations));
    }

    /** Closes those of them that last as long as the steps around them. */
    void closeLasting(List<PlannedExpectation> expectations, long nowUs) {
        for (Iterator<Open> all = open.iterator(); all.hasNext(); ) {
            Open window = all.next();
            if (window.ownSeconds().isEmpty() && isOf(window, expectations)) {
                all.remove();
                close(window, nowUs, true);
            }
        }
    }

    /** Closes all that is still open because the run ends here. */
    void cutShort(long nowUs) {
        List<Open> rest = List.copyOf(open);
        open.clear();
        rest.forEach(window -> close(window, nowUs, false));
    }

    private static boolean isOf(Open window, List<PlannedExpectation> expectations) {
        String id = window.watch().expectation().id();
        return expectations.stream().anyMatch(expectation -> expectation.id().equals(id));
    }

    private void close(Open window, long nowUs, boolean complete) {
        PlannedExpectation expectation = window.watch().expectation();
        log.closed(
                new ExpectationWindow(expectation.id(), window.watch().originUs(), window.openedUs(), nowUs, complete));
        progress.closed(expectation, nowUs, complete);
    }
}
