package dev.lapwing.plan;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.fixture.Acceptance;
import dev.lapwing.fixture.Wiring;
import dev.lapwing.naming.DesignOption;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.sequence.Sequence;
import dev.lapwing.source.Place;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Makes the plan of a sequence for a unit on a bench, or finds every mistake in the way. Pure. */
public final class Resolver {

    private final Sequence sequence;
    private final Subject subject;
    private final BenchFile bench;
    private final Lookup lookup;
    private final Expectations expectations;
    private final Steps steps;

    private Resolver(Sequence sequence, Subject subject, BenchFile bench, PressureDisplay pressures) {
        this.sequence = sequence;
        this.subject = subject;
        this.bench = bench;
        this.lookup = Lookup.of(subject, bench, pressures);
        HandlePlace handle = new HandlePlace(subject.wiring().handle(), lookup.mistakes());
        RememberedNames remembered = new RememberedNames(lookup.mistakes());
        this.expectations = new Expectations(
                lookup,
                new Checks(lookup, handle, remembered),
                new ExpectationText(lookup.text(), lookup.spoken()),
                remembered);
        Stimuli stimuli = new Stimuli(lookup, new StimulusText(lookup.text(), lookup.spoken()), handle);
        this.steps = new Steps(lookup, sequence.parts(), stimuli, expectations, lookup.spoken());
    }

    /**
     * Resolves.
     *
     * @param pressures the unit in which sentences show pressures; the plan's figures are in base units whatever it is
     */
    public static Resolution resolve(Sequence sequence, Subject subject, BenchFile bench, PressureDisplay pressures) {
        return new Resolver(sequence, subject, bench, pressures).resolve();
    }

    private Resolution resolve() {
        Scope scope = whyNot().map(Scope::notAsked).orElseGet(Scope::asked);
        List<PlanStep> prepare = steps.driving(sequence.prepare(), scope);
        List<PlanStep.WaitUntil> start = new ArrayList<>();
        if (scope.whyNot().isEmpty()) {
            sequence.start().forEach(wait -> start.add(steps.waitUntil(wait, scope)));
        }
        List<PlanStep> asking = steps.asking(sequence.steps(), scope);
        boolean asked = asking.stream().anyMatch(Resolver::asks);
        List<PlanStep> tidyUp = steps.driving(sequence.tidyUp(), scope);
        if (expectations.met() == 0 && lookup.mistakes().isEmpty()) {
            lookup.mistake(
                    new Place(sequence.file(), 1, 1),
                    "sequence '" + sequence.name() + "' has no expectation, so that it could never fail",
                    "at least one expect or meanwhile",
                    "");
        }
        List<Plan.LeftOut> left = new ArrayList<>(expectations.left());
        List<Throughout> throughout = new ArrayList<>();
        if (asked) {
            AlwaysOn always = new AlwaysOn(lookup, sequence);
            throughout.addAll(always.watched());
            left.addAll(always.left());
        }
        if (!lookup.mistakes().isEmpty()) {
            return new Resolution.Mistaken(lookup.mistakes().all());
        }
        return new Resolution.Resolved(asked ? plan(prepare, start, asking, tidyUp, throughout, left) : plan(left));
    }

    private Plan plan(List<Plan.LeftOut> left) {
        return plan(List.of(), List.of(), List.of(), List.of(), List.of(), left);
    }

    private Plan plan(
            List<PlanStep> prepare,
            List<PlanStep.WaitUntil> start,
            List<PlanStep> asking,
            List<PlanStep> tidyUp,
            List<Throughout> throughout,
            List<Plan.LeftOut> left) {
        Acceptance acceptance = subject.acceptance();
        return new Plan(
                sequence.name(),
                sequence.title(),
                sequence.purpose(),
                subject.fixture(),
                subject.unit(),
                acceptance.issue() + ", approved by " + acceptance.approver(),
                sequence.continues(),
                subject.wiring(),
                bench,
                List.copyOf(prepare),
                List.copyOf(start),
                List.copyOf(asking),
                List.copyOf(tidyUp),
                List.copyOf(throughout),
                List.copyOf(left));
    }

    /** Why this unit cannot be asked any of it. */
    private Optional<String> whyNot() {
        Wiring wiring = subject.wiring();
        List<String> reasons = new ArrayList<>();
        List<String> lacking = sequence.needs().stream()
                .filter(ability -> !wiring.abilities().contains(ability))
                .map(AlwaysOn::spoken)
                .toList();
        if (!lacking.isEmpty()) {
            reasons.add("the unit has no " + String.join(" and no ", lacking));
        }
        for (DesignOption option : sequence.needsDesign()) {
            if (!wiring.design().is(option)) {
                reasons.add(Steps.whyNot(option, wiring.design()));
            }
        }
        return reasons.isEmpty() ? Optional.empty() : Optional.of(String.join("; ", reasons));
    }

    private static boolean asks(PlanStep step) {
        return step instanceof PlanStep.Expect
                || (step instanceof PlanStep.While during
                        && (!during.expectations().isEmpty()
                                || during.steps().stream().anyMatch(Resolver::asks)));
    }
}
