package dev.lapwing.cli;

import dev.lapwing.evidence.RunClass;
import java.nio.file.Path;
import java.util.List;

/**
 * What the user chose for a run.
 *
 * @param seed     draws the simulated specimen and its noise
 * @param records  folder of records
 * @param runClass what the run is good for
 * @param operator who runs it; may be empty
 * @param serial   of the unit; may be empty
 * @param harness  version of the harness
 * @param arming   who armed the bench and what was known of it then, for every record; empty where nothing is armed
 */
record RunChoices(
        long seed,
        Path records,
        RunClass runClass,
        String operator,
        String serial,
        String harness,
        List<String> arming) {
    RunChoices {
        arming = List.copyOf(arming);
    }
}
