package dev.lapwing.plan;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.fixture.Wiring;
import java.util.List;

/**
 * The resolved run of one sequence: every name resolved, every figure with its unit, loops unrolled, parts in place.
 *
 * @param sequence   name of the sequence
 * @param title      its title
 * @param purpose    its purpose
 * @param fixture    name of the fixture
 * @param unit       title of the unit
 * @param acceptance issue and approver of the acceptance document
 * @param continues  true if it goes on without a fresh start
 * @param wiring     of the fixture
 * @param bench      the bench file
 * @param prepare    steps before the start
 * @param start      conditions that must hold before the first step
 * @param steps      the steps
 * @param tidyUp     the tidy-up steps
 * @param throughout what must hold all the time
 * @param left       parts that this unit cannot be asked, with the reason; findings of verdict none
 */
public record Plan(
        String sequence,
        String title,
        String purpose,
        String fixture,
        String unit,
        String acceptance,
        boolean continues,
        Wiring wiring,
        BenchFile bench,
        List<PlanStep> prepare,
        List<PlanStep.WaitUntil> start,
        List<PlanStep> steps,
        List<PlanStep> tidyUp,
        List<Throughout> throughout,
        List<LeftOut> left) {

    /**
     * An expectation that is not run.
     *
     * @param id       of the expectation, or of the whole sequence
     * @param sentence as a person reads it
     * @param place    where it stands
     * @param why      the reason
     */
    public record LeftOut(String id, String sentence, String place, String why) {}

    /** Names of the wires that the unit has; the bench may carry more. */
    public List<String> wires() {
        return wiring.wires();
    }

    /** True if nothing of it can be asked of this unit. */
    public boolean none() {
        return steps.isEmpty();
    }
}
