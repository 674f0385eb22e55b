package dev.lapwing.run;

import dev.lapwing.plan.PlanStep;
import java.util.List;

/** Finds commands that follow each other more quickly than they could be asked for one by one. */
final class BriskCommands {
    /** Longest time between two commands that are asked for together, in µs. */
    private static final long BRISK_US = 250_000;
    /** Most commands asked for together. */
    private static final int TOGETHER_MAX = 8;

    private BriskCommands() {}

    /**
     * Where a run of them ends that begins at {@code start}: a command, a short wait, a command and so on.
     *
     * @return index after its last command; {@code start} if there is no such run
     */
    static int end(List<? extends PlanStep> steps, int start) {
        if (start >= steps.size() || !jump(steps.get(start))) {
            return start;
        }
        int end = start + 1;
        int together = 1;
        while (together < TOGETHER_MAX && end + 1 < steps.size() && brief(steps.get(end)) && jump(steps.get(end + 1))) {
            end += 2;
            together++;
        }
        return together > 1 ? end : start;
    }

    private static boolean jump(PlanStep step) {
        return step instanceof PlanStep.Drive drive && drive.overUs() == 0;
    }

    private static boolean brief(PlanStep step) {
        return step instanceof PlanStep.Wait wait && wait.us() <= BRISK_US;
    }
}
