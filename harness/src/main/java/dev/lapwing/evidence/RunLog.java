package dev.lapwing.evidence;

import dev.lapwing.bench.BenchListener;
import dev.lapwing.plan.Course;
import java.util.Map;

/**
 * The append-only log of one run. It is a listener of the bench, so that whatever the bench reports can be passed on as
 * it is; what the runner itself does is told by the other methods. For one thread: the one that steps the runner.
 *
 * <p>What was appended is sent to the disk, through its cache, at the latest when a window closes, and is there when
 * the record is read at the end of the run; a crash in between loses at most what came after the last closed window
 * that the disk has taken, and never anything before.
 *
 * <p>Every method throws {@link RecordFailure} once the record cannot be written (full disk, lost share); from then on
 * each further call throws it again, and so does closing the record.
 */
public interface RunLog extends BenchListener {

    /**
     * A set command was asked for; told before the bench is asked.
     *
     * @param id     of the command, rising
     * @param text   the step as a person reads it
     * @param values by actuator key, base units
     * @param dueUs  bench time for which it is asked
     * @param overUs time of the ramp in µs; 0 for a step
     */
    void due(long id, String text, Map<String, Double> values, long dueUs, long overUs);

    /**
     * Watching an expectation begins.
     *
     * @param expectation its id
     * @param originUs    bench time that its times count from, as known now
     * @param atUs        bench time now
     */
    void opened(String expectation, long originUs, long atUs);

    /** Watching an expectation ended; the window as it finally is. Sends the log to the disk, through its cache. */
    void closed(Course.ExpectationWindow window);

    /** Something that is not the unit's fault, or ended the run. */
    void trouble(Course.Trouble trouble);

    /** A remark of the operator, at that bench time. */
    void mark(long atUs, String text);

    /** The run is over; nothing may be appended after it. Sends the log to the disk, through its cache. */
    void end(long atUs, Course.Ending ending);
}
