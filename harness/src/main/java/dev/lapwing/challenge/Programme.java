package dev.lapwing.challenge;

import dev.lapwing.fixture.Wiring;
import dev.lapwing.naming.Actuator;
import dev.lapwing.naming.Keys;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** What a train of the study is driven through, step by step. */
final class Programme {
    /** How far the pipe is let down, in psi; its law has 20 psi at the end of the arc. */
    static final List<Integer> REDUCTIONS_PSI = List.of(10, 15, 20);
    /** How long the EP brake's supply is away, in ms. */
    static final List<Integer> GAPS_MS = List.of(50, 100, 300, 1000, 3000);

    private static final double VOLTS = 110;
    private static final String ARC = "automatic-application";

    /**
     * @param stimulus name of what is done
     * @param values   of the actuators, by key
     * @param seconds  that follow
     */
    record Step(String stimulus, Map<String, Double> values, double seconds) {}

    private final Wiring wiring;
    private final List<Step> steps = new ArrayList<>();
    private final double slow;

    private Programme(Wiring wiring) {
        this.wiring = wiring;
        slow = slow(wiring.vehicles());
    }

    /** How much longer a pipe of so many vehicles takes than one of four, about. */
    static double slow(int vehicles) {
        return vehicles <= 4 ? 1 : 2.5;
    }

    static List<Step> of(Wiring wiring) {
        Programme programme = new Programme(wiring);
        programme.electric();
        programme.automatic();
        programme.events();
        programme.deadman();
        return List.copyOf(programme.steps);
    }

    /** Actuators that act on the train past the unit, which a bench file for another train does not name. */
    static Set<Actuator> onTheTrain(List<Step> steps) {
        Set<Actuator> actuators = new LinkedHashSet<>();
        steps.forEach(step -> step.values().keySet().stream()
                .filter(key -> key.contains("/") && !key.startsWith("supply"))
                .forEach(key -> Keys.actuator(key).ifPresent(actuators::add)));
        return actuators;
    }

    private void electric() {
        step("power", Map.of("supply/ep", VOLTS, "supply/control", VOLTS, "speed", 0.0), 3);
        step("charge", Map.of("master-switch", 1.0, "deadman", 1.0), 170 * Math.sqrt(slow));
        handle("ep-apply", "full-ep", 9);
        handle("ep-release", "release", 13);
        handle("ep-again", "full-ep", 6);
        for (int ms : GAPS_MS) {
            step("gap-" + ms, Map.of("supply/ep", 0.0), ms * 1e-3);
            step("supply-back", Map.of("supply/ep", VOLTS), 5);
        }
        handle("ep-off", "release", 13);
    }

    private void automatic() {
        handle("full-service", "full-service", 14 * slow);
        release(60);
        for (int psi : REDUCTIONS_PSI) {
            double degrees = wiring.handle().angle(ARC, psi / 20.0).orElseThrow();
            step("reduction-" + psi, Map.of("handle", degrees), 13 * slow);
        }
        release(60);
        handle("emergency", "emergency", 12 * slow);
        handle("recharge", "release", 70 * Math.sqrt(slow));
    }

    private void events() {
        int middle = wiring.vehicles() / 2;
        event("parting", "parting/behind-" + middle);
        event("alarm", "alarm-valve/vehicle-" + (middle + 1));
        event("guard-valve", "crew-valve/vehicle-" + wiring.vehicles());
    }

    private void event(String stimulus, String actuator) {
        step(stimulus, Map.of(actuator, 1.0), 10 * slow);
        step(stimulus + "-over", Map.of(actuator, 0.0), 110 * Math.sqrt(slow));
    }

    private void deadman() {
        step("reverser", Map.of("reverser/forward", 1.0), 3);
        step("deadman", Map.of("deadman", 0.0), 12 * slow);
    }

    private void release(double seconds) {
        handle("released", "release", seconds * Math.sqrt(slow));
    }

    private void handle(String stimulus, String position, double seconds) {
        step(stimulus, Map.of("handle", wiring.handle().positions().get(position)), seconds);
    }

    private void step(String stimulus, Map<String, Double> values, double seconds) {
        steps.add(new Step(stimulus, values, seconds));
    }
}
