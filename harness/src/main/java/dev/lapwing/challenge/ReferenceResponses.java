package dev.lapwing.challenge;

import static dev.lapwing.challenge.Asked.atLeast;
import static dev.lapwing.challenge.Asked.auxiliary;
import static dev.lapwing.challenge.Asked.cylinder;
import static dev.lapwing.challenge.Asked.level;
import static dev.lapwing.challenge.Asked.pipe;
import static dev.lapwing.challenge.Asked.speed;

import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import java.util.List;
import java.util.OptionalDouble;
import java.util.stream.IntStream;

/**
 * The responses by which the simulated trains are held against their reference, as questions; see {@link Programme}.
 */
final class ReferenceResponses {
    private ReferenceResponses() {}

    /** What is over within seconds. */
    static void ask(Asked asked, int rear) {
        double slow = Programme.slow(rear);
        for (int vehicle : new int[] {1, rear}) {
            Signal cylinder = cylinder(vehicle);
            asked.rises("ep-apply", cylinder, 8, 5, 25, 45);
            asked.falls("ep-release", cylinder, 12, 25, 10, 5, 1);
            asked.rises("full-service", cylinder, 8 * slow, 45);
            asked.falls("emergency", pipe(vehicle), 8, 69, 68, 52);
            asked.rises("emergency", cylinder, 8, 45);
            asked.falls("deadman", pipe(vehicle), 8, 52);
            for (String event : List.of("parting", "alarm", "guard-valve")) {
                asked.rises(event, cylinder, 9 * slow, 45);
            }
        }
        asked.falls("emergency", pipe(rear), 8 * slow, 10);
        asked.rises("deadman", cylinder(rear), 8, 45);
        List<Signal> pipes =
                IntStream.rangeClosed(1, rear).mapToObj(Asked::pipe).toList();
        asked.value("speed along the train", "emergency", new Check.Travel(pipes, false, 22, 0, 4, speed()));
        for (int psi : Programme.REDUCTIONS_PSI) {
            String stimulus = "reduction-" + psi;
            asked.value(stimulus + ": level, cylinder " + rear, stimulus, level(cylinder(rear), 11 * slow, 1));
        }
        for (int ms : Programme.GAPS_MS) {
            String stimulus = "gap-" + ms;
            Check lowest = new Check.Stays(cylinder(1), OptionalDouble.of(ms * 1e-3 + 1), atLeast(60));
            asked.value(stimulus + ": lowest, cylinder 1", stimulus, lowest);
        }
    }

    /** What takes a minute or more. */
    static void askCharging(Asked asked, int rear) {
        double slow = Programme.slow(rear);
        asked.rises("charge", pipe(rear), 160 * Math.sqrt(slow), 65);
        asked.rises("charge", auxiliary(rear), 160 * Math.sqrt(slow), 67);
        asked.rises("recharge", pipe(rear), 60 * Math.sqrt(slow), 65);
        asked.rises("recharge", auxiliary(rear), 60 * Math.sqrt(slow), 67);
        asked.falls("recharge", cylinder(rear), 60 * Math.sqrt(slow), 5);
    }
}
