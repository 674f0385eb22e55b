package dev.lapwing.judge;

import dev.lapwing.finding.Finding;
import dev.lapwing.measure.Recording;
import dev.lapwing.plan.Course;
import dev.lapwing.plan.Plan;
import dev.lapwing.quantity.PressureDisplay;
import java.util.List;

/**
 * Judges a run.
 *
 * @param display the unit in which sentences print pressures; figures in findings stay in base units
 */
public record Judge(PressureDisplay display) {

    /**
     * One finding for each expectation of the plan in its order, then for each always-on property, each part left out,
     * and each trouble.
     */
    public List<Finding> judge(Plan plan, Recording recording, Course course) {
        return List.of();
    }
}
