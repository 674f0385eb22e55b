package dev.lapwing.plan;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.sequence.Expectation;
import dev.lapwing.sequence.Operand;
import dev.lapwing.sequence.SignalRef;
import dev.lapwing.sequence.Step;
import dev.lapwing.sequence.Stimulus;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** Sequences put together at random, good and bad pieces alike. */
class ResolverSeededTest {

    private static final long SEED = Long.getLong("lapwing.seed", 20261012);
    private static final int ROUNDS = 400;

    private static final List<String> OPERANDS = List.of(
            "45 psi",
            "3 s",
            "10 %",
            "0.7 Un",
            "200 psi",
            "-5 s",
            "2 times",
            "charged-level",
            "settling-time",
            "ep-rise-time",
            "charged-band",
            "lapping-tolerance",
            "step-up",
            "cylinder-leak",
            "pipe-leak",
            "lapping-pulses",
            "lamp-supply",
            "beyond-the-gauge",
            "no-such-figure",
            "<demand>",
            "<nobody>");
    private static final List<String> SIGNALS = List.of(
            "brake-pipe at last",
            "brake-cylinder at every",
            "brake-cylinder at 9",
            "auxiliary-reservoir at 1",
            "brake-pipe at <demand>",
            "wire application",
            "wire nobody",
            "supply ep",
            "handle-angle");

    private final Written w = new Written();

    @Test
    void whateverIsWrittenComesToAPlanWithoutHolesOrToMistakes() {
        int resolved = 0;
        for (int round = 0; round < ROUNDS; round++) {
            SplittableRandom random = new SplittableRandom(SEED + round);
            Resolution resolution = Resolver.resolve(
                    Written.sequence(steps(random)), Models.unit(), Models.bench(), PressureDisplay.PSI);

            if (resolution instanceof Resolution.Resolved whole) {
                resolved++;
                assertThat(whole.plan().steps().toString()).as(replay(round)).doesNotContain("NaN");
                assertThat(ids(whole.plan())).as(replay(round)).doesNotHaveDuplicates();
            } else {
                assertThat(((Resolution.Mistaken) resolution).mistakes())
                        .as(replay(round))
                        .isNotEmpty();
            }
        }
        assertThat(resolved).as("rounds that came to a plan").isBetween(ROUNDS / 5, ROUNDS * 4 / 5);
    }

    private static String replay(int round) {
        return "replay with -Dlapwing.seed=" + (SEED + round);
    }

    private static List<String> ids(Plan plan) {
        return Stream.concat(
                        Planned.expectations(plan).map(PlannedExpectation::id),
                        plan.left().stream().map(Plan.LeftOut::id))
                .toList();
    }

    private Step[] steps(SplittableRandom random) {
        List<Step> steps = new ArrayList<>();
        steps.add(w.handle(random.nextInt(8) == 0 ? "nowhere" : "full-ep"));
        for (int i = random.nextInt(1, 3); i > 0; i--) {
            Step expect = w.expect("e" + i, expectation(random));
            switch (random.nextInt(5)) {
                case 0 -> steps.add(w.forEach("demand", List.of("1 times", "last"), expect));
                case 1 -> steps.add(w.meanwhile("m" + i, expectation(random), w.waiting("3 s"), expect));
                case 2 -> steps.add(w.doing(stimulus(random)));
                default -> steps.add(expect);
            }
        }
        steps.add(w.check());
        return steps.toArray(Step[]::new);
    }

    private Stimulus stimulus(SplittableRandom random) {
        return switch (random.nextInt(4)) {
            case 0 -> new Stimulus.Supply("ep", operand(random), w.place());
            case 1 -> new Stimulus.Speed(operand(random), w.place());
            case 2 ->
                new Stimulus.MoveHandleAlong(
                        operand(random), "ep-application", Optional.of(operand(random)), w.place());
            default ->
                new Stimulus.Cock(
                        Stimulus.PipeName.BRAKE_PIPE, Written.vehicle("" + random.nextInt(6)), true, w.place());
        };
    }

    private Expectation expectation(SplittableRandom random) {
        Operand time = mostly("3 s", random);
        Optional<Operand> over = random.nextInt(8) > 0 ? Optional.of(time) : Optional.empty();
        SignalRef signal = w.signal(
                random.nextInt(4) > 0 ? "brake-cylinder at last" : SIGNALS.get(random.nextInt(SIGNALS.size())));
        Operand band = mostly("charged-band", random);
        Operand difference = mostly("lapping-tolerance", random);
        return switch (random.nextInt(8)) {
            case 0 -> new Expectation.SettlesAt(signal, band, time, time, Optional.of("it"));
            case 1 -> new Expectation.Holds(signal, mostly("pipe-leak", random), time, time);
            case 2 -> new Expectation.RisesAbove(signal, mostly("45 psi", random), mostly("ep-rise-time", random));
            case 3 -> new Expectation.StaysBetween(signal, band, over);
            case 4 -> new Expectation.Agrees(signal, w.signal("brake-pipe at first"), difference, time, time);
            case 5 -> new Expectation.Repeats(signal, "it", difference, time, time);
            case 6 -> new Expectation.Changes(signal, difference, time, mostly("60 s", random));
            default -> new Expectation.SettlesAtLaw(signal, "self-lapping", difference, time, time, Optional.empty());
        };
    }

    private Operand mostly(String good, SplittableRandom random) {
        return random.nextInt(12) > 0 ? w.operand(good) : operand(random);
    }

    private Operand operand(SplittableRandom random) {
        return w.operand(OPERANDS.get(random.nextInt(OPERANDS.size())));
    }
}
