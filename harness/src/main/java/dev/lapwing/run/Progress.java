package dev.lapwing.run;

import dev.lapwing.measure.Recording;
import dev.lapwing.plan.Course;
import dev.lapwing.plan.Plan;
import dev.lapwing.plan.PlanStep;
import dev.lapwing.plan.PlannedExpectation;

/** Hears how a run goes on, for people to watch. Called by the runner's thread; times are bench time in µs. */
public interface Progress {
    /** Nobody watches. */
    Progress NONE = new Progress() {};

    /** The parts of a run. */
    enum Part {
        PREPARE,
        START,
        STEPS,
        TIDY_UP
    }

    /** The run begins; the bench is armed. */
    default void started(Plan plan, long atUs) {}

    /** A step begins; a step with steps in it before those. */
    default void step(Part part, PlanStep step, long atUs) {}

    /** Watching an expectation begins. */
    default void opened(PlannedExpectation expectation, long atUs) {}

    /**
     * Watching an expectation ended.
     *
     * @param complete false if the run ended first
     */
    default void closed(PlannedExpectation expectation, long atUs, boolean complete) {}

    /** Bench time went on. {@code recording} is what has been reported so far, to be read during the call. */
    default void passed(long atUs, Recording recording) {}

    default void trouble(Course.Trouble trouble) {}

    /** The run is over; the bench is safe, unless it stays armed for the sequence that continues this one. */
    default void ended(long atUs, Course.Ending ending) {}
}
