package dev.lapwing.report;

import java.util.ArrayList;
import java.util.List;

/** What every report says before it says anything else. */
final class Cautions {
    /** The one that a simulated run repeats wherever it can be read on its own. */
    static final String SIMULATED =
            "Simulated run: unit, train and air were computed. It states nothing about any real unit.";

    private static final List<String> BENCH = List.of(
            "The bench stores compressed air. Check that two pressure readings are zero before opening anything.",
            "The exhaust discharges violently and loudly, without further warning after the beacon.",
            "Live parts at battery voltage and hot coils: isolate before touching the loom.");

    private static final List<String> RESULT = List.of(
            "A passed bench test does not show that the unit is fit for a train until it is installed and the crew's"
                    + " continuity and EP brake tests have been done; they are repeated whenever the consist changes.",
            "The EP brake is not fail-safe: test the automatic brake first.",
            "The EP supply lamp shows supply at one point only.",
            "Tests that inject faults put the unit into states never allowed in service: repeat the tests of charging,"
                    + " EP and automatic brake afterwards.",
            "The results hold only for the serial numbers, builds and configuration named here.",
            "Local codes, the maker's instructions and the judgement of licensed practitioners come before anything"
                    + " that this harness prints.");

    private Cautions() {}

    /** In the order in which they should be read. */
    static List<String> of(boolean simulated) {
        List<String> all = new ArrayList<>();
        if (simulated) {
            all.add(SIMULATED);
        } else {
            all.addAll(BENCH);
        }
        all.addAll(RESULT);
        return all;
    }

    /** The few that fit a terminal. */
    static List<String> brief(boolean simulated) {
        return simulated
                ? List.of(SIMULATED, RESULT.get(5))
                : List.of(BENCH.get(0), BENCH.get(1), RESULT.get(0), RESULT.get(5));
    }
}
