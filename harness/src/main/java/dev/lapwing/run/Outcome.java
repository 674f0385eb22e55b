package dev.lapwing.run;

import dev.lapwing.plan.Course;
import java.util.List;

/**
 * How a run went; what it found is for the judge to say.
 *
 * @param ending   how it ended
 * @param troubles what went wrong with bench, link or run, in order
 * @param armed    true if the bench stays armed, its outputs as the run left them, for a sequence that continues
 */
public record Outcome(Course.Ending ending, List<Course.Trouble> troubles, boolean armed) {
    public Outcome {
        troubles = List.copyOf(troubles);
    }
}
