package dev.lapwing.files;

import dev.lapwing.files.Node.Entries;
import dev.lapwing.files.Node.Entry;
import dev.lapwing.naming.DesignFlag;
import dev.lapwing.naming.DesignOption;
import dev.lapwing.sequence.Operand;
import dev.lapwing.sequence.Step;
import dev.lapwing.sequence.Step.NamedExpectation;
import dev.lapwing.sequence.Stimulus;
import dev.lapwing.source.Place;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/** Reads steps: each a map with one verb for its key, and {@code do} where it has steps of its own. */
final class Steps {
    private static final List<String> VERBS = Stream.of(Shapes.STIMULI, Shapes.PLAIN_STEPS, Shapes.STEPS_WITH_DO)
            .flatMap(List::stream)
            .toList();

    private final Reading reading;
    private final Operands operands;
    private final Conditions conditions;
    private final Expectations expectations;
    private final Stimuli stimuli;
    private final Loops loops;

    Steps(Reading reading) {
        this.reading = reading;
        this.operands = new Operands(reading);
        Signals signals = new Signals(reading, operands);
        this.conditions = new Conditions(reading, operands, signals);
        this.expectations = new Expectations(reading, operands, signals, conditions);
        this.stimuli = new Stimuli(reading, operands, signals);
        this.loops = new Loops(reading, operands);
    }

    List<Step> steps(Node node, Scope scope) {
        List<Step> read = new ArrayList<>();
        for (Node item : reading.items(node, "a list of steps")) {
            reading.entries(item, "a step such as 'wait: 3 s'")
                    .flatMap(map -> step(map, scope))
                    .ifPresent(read::add);
        }
        return List.copyOf(read);
    }

    /** Conditions that must hold before the first step. */
    List<Step.WaitUntil> start(Node node, Scope scope) {
        List<Step.WaitUntil> read = new ArrayList<>();
        for (Node item : reading.itemsOrNone(node, "a list of conditions, each with its 'at-most'")) {
            read.add(waitUntil(item, item.place(), scope));
        }
        return List.copyOf(read);
    }

    private Optional<Step> step(Entries map, Scope scope) {
        Optional<Entry> verb = verb(map);
        if (verb.isEmpty()) {
            return Optional.empty();
        }
        boolean withDo = Shapes.STEPS_WITH_DO.contains(verb.get().key());
        for (Entry entry : map.entries()) {
            if (entry == verb.get() || withDo && entry.key().equals("do")) {
                continue;
            }
            String known = VERBS.contains(entry.key()) ? "a step of its own for each" : withDo ? "'do'" : "";
            String found = "'" + verb.get().key() + "' and " + Quoted.of(entry.key()) + " stand in one step";
            reading.mistake(entry.place(), found, known, known.isEmpty() ? "see to the indentation" : "");
        }
        if (withDo && map.entry("do").isEmpty()) {
            reading.mistake(
                    verb.get().place(), "'do' is missing beside '" + verb.get().key() + "'");
            return Optional.empty();
        }
        return Shapes.STIMULI.contains(verb.get().key())
                ? Optional.of(new Step.Stimulate(
                        stimuli.stimuli(verb.get(), scope), verb.get().place()))
                : step(verb.get(), map, scope);
    }

    private Optional<Entry> verb(Entries map) {
        Optional<Entry> verb =
                map.entries().stream().filter(e -> VERBS.contains(e.key())).findFirst();
        if (verb.isEmpty()) {
            Entry first = map.entries().get(0);
            String hint = Reading.near(first.key(), VERBS);
            if (Shapes.EXPECTATIONS.containsKey(first.key())) {
                hint = "an expectation stands under 'expect' and a name";
            }
            if (hint.isEmpty()) {
                hint = "harness/docs/sequences.md lists the steps";
            }
            reading.mistake(first.place(), "unknown step " + Quoted.of(first.key()), "", hint);
        }
        return verb;
    }

    private Optional<Step> step(Entry verb, Entries map, Scope scope) {
        return switch (verb.key()) {
            case "together" -> Optional.of(new Step.Stimulate(together(verb.value(), scope), verb.place()));
            case "wait" -> Optional.of(new Step.Wait(operands.time(verb.value(), scope), verb.place()));
            case "wait-until" -> Optional.of(waitUntil(verb.value(), verb.place(), scope));
            case "part" ->
                reading.name(verb.value(), "the name of a part").map(part -> {
                    scope.body().call(part, verb.value().place(), scope.loops().keySet());
                    return new Step.CallPart(part, verb.place());
                });
            case "expect" -> Optional.of(new Step.Expect(expect(verb, scope), verb.place()));
            default -> around(verb, map.entry("do").map(Entry::value).orElseThrow(), scope);
        };
    }

    private Optional<Step> around(Entry verb, Node inner, Scope scope) {
        switch (verb.key()) {
            case "for-each":
                Optional<Loops.Loop> loop = loops.loop(verb.value(), scope);
                // Steps inside a loop that could not be read are read all the same, for their mistakes.
                Scope inside =
                        loop.map(l -> scope.with(l.variable(), l.values())).orElse(scope);
                List<Step> repeated = steps(inner, inside);
                return loop.map(l -> new Step.ForEach(l.variable(), l.values(), repeated, verb.place()));
            case "only-if":
                Optional<DesignOption> option = onlyIf(verb.value());
                List<Step> steps = steps(inner, scope);
                return option.map(is -> new Step.OnlyIf(is, steps, verb.place()));
            default:
                return Optional.of(new Step.While(expect(verb, scope), steps(inner, scope), verb.place()));
        }
    }

    private List<NamedExpectation> expect(Entry verb, Scope scope) {
        if (!scope.body().mayExpect()) {
            reading.mistake(verb.place(), "nothing is expected in 'prepare' and 'tidy-up'", "", "move it to 'steps'");
        }
        return expectations.expectations(verb.value(), scope);
    }

    private List<Stimulus> together(Node node, Scope scope) {
        List<Stimulus> read = new ArrayList<>();
        for (Node item : reading.items(node, "a list of what happens at the same instant")) {
            for (Entry entry : reading.entries(item, "what the bench does")
                    .map(Entries::entries)
                    .orElse(List.of())) {
                if (Shapes.STIMULI.contains(entry.key())) {
                    read.addAll(stimuli.stimuli(entry, scope));
                } else {
                    reading.unknown(entry.place(), "stimulus", entry.key(), Shapes.STIMULI);
                }
            }
        }
        return List.copyOf(read);
    }

    private Step.WaitUntil waitUntil(Node node, Place place, Scope scope) {
        List<Entry> entries = reading.entries(node, "conditions and 'at-most'")
                .map(Entries::entries)
                .orElse(List.of());
        List<Entry> states =
                entries.stream().filter(e -> !e.key().equals("at-most")).toList();
        Optional<Operand> atMost = entries.stream()
                .filter(e -> e.key().equals("at-most"))
                .findFirst()
                .map(e -> operands.time(e.value(), scope));
        if (!entries.isEmpty() && atMost.isEmpty()) {
            reading.mistake(node.place(), "'at-most' is missing beside the condition", "the longest time to wait", "");
        }
        if (!entries.isEmpty() && states.isEmpty()) {
            reading.mistake(node.place(), "a condition is missing beside 'at-most'");
        }
        return new Step.WaitUntil(conditions.all(states, scope), atMost.orElse(Operands.none(place)), place);
    }

    private Optional<DesignOption> onlyIf(Node node) {
        Optional<Entries> map = reading.entries(node, "one design flag and its option");
        if (map.isPresent() && map.get().entries().size() > 1) {
            reading.mistake(map.get().entries().get(1).place(), "a second design flag", "one in each 'only-if'", "");
        }
        return map.flatMap(m -> design(m.entries().get(0)));
    }

    /** A design flag and its option. */
    Optional<DesignOption> design(Entry entry) {
        var flags = Reading.byText(DesignFlag.values(), DesignFlag::text);
        DesignFlag flag = flags.get(entry.key());
        if (flag == null) {
            reading.unknown(entry.place(), "design flag", entry.key(), flags.keySet());
            return Optional.empty();
        }
        var options = Reading.byText(flag.options().toArray(DesignOption[]::new), DesignOption::text);
        return reading.choice(entry.value(), "option of '" + flag.text() + "'", options);
    }
}
