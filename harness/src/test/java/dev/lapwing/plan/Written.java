package dev.lapwing.plan;

import dev.lapwing.naming.Ability;
import dev.lapwing.naming.PressureKind;
import dev.lapwing.quantity.Quantity;
import dev.lapwing.sequence.AlwaysProperty;
import dev.lapwing.sequence.Condition;
import dev.lapwing.sequence.Expectation;
import dev.lapwing.sequence.Operand;
import dev.lapwing.sequence.Sequence;
import dev.lapwing.sequence.SignalRef;
import dev.lapwing.sequence.Step;
import dev.lapwing.sequence.Stimulus;
import dev.lapwing.sequence.VehicleRef;
import dev.lapwing.source.Place;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Sequences as a loader would give them, written shortly. Each piece gets its own line, counted up from 1. */
final class Written {
    private int line;

    Place place() {
        line++;
        return new Place("sequences/test.yaml", line, 3);
    }

    /** A figure with its unit, a {@code <variable>}, or a name. */
    Operand operand(String text) {
        if (text.startsWith("<")) {
            return new Operand.Variable(text.substring(1, text.length() - 1), place());
        }
        return Quantity.looksLikeFigure(text)
                ? new Operand.Written(Models.quantity(text), place())
                : new Operand.Named(text, place());
    }

    /** {@code brake-pipe at last}, {@code wire x}, {@code supply ep} or {@code handle-angle}. */
    SignalRef signal(String text) {
        if (text.startsWith("wire ")) {
            return new SignalRef.Wire(text.substring(5), place());
        }
        if (text.startsWith("supply ")) {
            return new SignalRef.SupplyVoltage(text.substring(7), place());
        }
        if (text.equals("handle-angle")) {
            return new SignalRef.HandleAngle(place());
        }
        String[] parts = text.split(" at ");
        return new SignalRef.Pressure(PressureKind.named(parts[0]).orElseThrow(), vehicle(parts[1]), place());
    }

    static VehicleRef vehicle(String text) {
        return switch (text) {
            case "first" -> new VehicleRef.First();
            case "last" -> new VehicleRef.Last();
            case "every" -> new VehicleRef.Every();
            default ->
                text.startsWith("<")
                        ? new VehicleRef.Looped(text.substring(1, text.length() - 1))
                        : new VehicleRef.Numbered(Integer.parseInt(text));
        };
    }

    Condition above(String signal, String level) {
        return new Condition.Above(signal(signal), operand(level));
    }

    Condition wire(String name, boolean on) {
        return new Condition.WireIs(new SignalRef.Wire(name, place()), on);
    }

    Step handle(String position) {
        return doing(new Stimulus.MoveHandle(position, Optional.empty(), place()));
    }

    Step along(String share, String arc) {
        return doing(new Stimulus.MoveHandleAlong(operand(share), arc, Optional.empty(), place()));
    }

    Step doing(Stimulus... stimuli) {
        return new Step.Stimulate(List.of(stimuli), place());
    }

    Step waiting(String time) {
        return new Step.Wait(operand(time), place());
    }

    Step forEach(String variable, List<String> values, Step... steps) {
        return new Step.ForEach(variable, values.stream().map(this::operand).toList(), List.of(steps), place());
    }

    Step expect(String name, Expectation expectation) {
        return new Step.Expect(List.of(named(name, expectation)), place());
    }

    /** A step that any sequence may have, so that it expects something. */
    Step check() {
        return expect("charged", settlesAt("brake-pipe at last", "charged-band", null));
    }

    Step meanwhile(String name, Expectation expectation, Step... steps) {
        return new Step.While(List.of(named(name, expectation)), List.of(steps), place());
    }

    Step.NamedExpectation named(String name, Expectation expectation) {
        return new Step.NamedExpectation(name, expectation, place());
    }

    Expectation risesAbove(String signal, String level, String within) {
        return new Expectation.RisesAbove(signal(signal), operand(level), operand(within));
    }

    Expectation settlesAtLaw(String law) {
        return settlesAtLaw(law, null);
    }

    Expectation settlesAtLaw(String law, String rememberAs) {
        return new Expectation.SettlesAtLaw(
                signal("brake-cylinder at last"),
                law,
                operand("lapping-tolerance"),
                operand("3 s"),
                operand("2 s"),
                Optional.ofNullable(rememberAs));
    }

    Expectation settlesAt(String signal, String level, String rememberAs) {
        return new Expectation.SettlesAt(
                signal(signal), operand(level), operand("3 s"), operand("2 s"), Optional.ofNullable(rememberAs));
    }

    Expectation repeats(String signal, String remembered) {
        return new Expectation.Repeats(
                signal(signal), remembered, operand("lapping-tolerance"), operand("3 s"), operand("2 s"));
    }

    Expectation stays(String signal, String band, String over) {
        return new Expectation.StaysBetween(
                signal(signal), operand(band), Optional.ofNullable(over).map(this::operand));
    }

    static Sequence sequence(Step... steps) {
        return sequence(Map.of(), steps);
    }

    static Sequence sequence(Map<String, List<Step>> parts, Step... steps) {
        Map<String, Sequence.Part> named = new LinkedHashMap<>();
        parts.forEach((name, part) -> named.put(name, new Sequence.Part(name, part)));
        return new Sequence(
                "sequences/test.yaml",
                "test",
                "A test",
                "To see whether it resolves.",
                List.of(),
                List.of(),
                false,
                List.of(),
                List.of(),
                Arrays.asList(steps),
                List.of(),
                List.of(),
                named);
    }

    static Sequence needing(Ability ability, Step... steps) {
        return new Shell().needing(ability).around(steps);
    }

    /** What stands around the steps of a sequence. */
    static final class Shell {
        private List<Ability> needs = List.of();
        private List<Step> prepare = List.of();
        private List<AlwaysProperty> breaks = List.of();
        private List<Step> tidyUp = List.of();

        Shell needing(Ability... abilities) {
            needs = List.of(abilities);
            return this;
        }

        Shell preparing(Step... steps) {
            prepare = List.of(steps);
            return this;
        }

        Shell breaking(AlwaysProperty... properties) {
            breaks = List.of(properties);
            return this;
        }

        Shell tidyingUp(Step... steps) {
            tidyUp = List.of(steps);
            return this;
        }

        Sequence around(Step... steps) {
            Sequence plain = sequence(steps);
            return new Sequence(
                    plain.file(),
                    plain.name(),
                    plain.title(),
                    plain.purpose(),
                    needs,
                    plain.needsDesign(),
                    plain.continues(),
                    prepare,
                    plain.start(),
                    plain.steps(),
                    breaks,
                    tidyUp,
                    plain.parts());
        }
    }
}
