package dev.lapwing.sequence;

import dev.lapwing.naming.Ability;
import dev.lapwing.naming.DesignOption;
import java.util.List;
import java.util.Map;

/**
 * What is done and what must follow, as written.
 *
 * @param file        the file it was read from, as the user named it
 * @param name        the file's name without its ending
 * @param title       what it is called, for people
 * @param purpose     why it is done, a sentence or two
 * @param needs       abilities that the unit must have, else the sequence ends as none
 * @param needsDesign design options that the unit must have, likewise
 * @param continues   true if it goes on where the sequence before it ended, without a fresh start
 * @param prepare     steps before the start, without expectations
 * @param start       conditions that must hold before the first step; may be empty
 * @param steps       the steps
 * @param breaks      always-on properties that it breaks on purpose
 * @param tidyUp      steps after the last, whatever the verdict
 * @param parts       named parts that steps may call, its own and included ones
 */
public record Sequence(
        String file,
        String name,
        String title,
        String purpose,
        List<Ability> needs,
        List<DesignOption> needsDesign,
        boolean continues,
        List<Step> prepare,
        List<Step.WaitUntil> start,
        List<Step> steps,
        List<AlwaysProperty> breaks,
        List<Step> tidyUp,
        Map<String, Part> parts) {

    /** Steps under a name, to be called from anywhere. */
    public record Part(String name, List<Step> steps) {}
}
