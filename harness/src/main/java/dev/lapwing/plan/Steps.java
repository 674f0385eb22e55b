package dev.lapwing.plan;

import dev.lapwing.fixture.Design;
import dev.lapwing.naming.DesignOption;
import dev.lapwing.sequence.Operand;
import dev.lapwing.sequence.Sequence;
import dev.lapwing.sequence.Step;
import dev.lapwing.source.NearestName;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/** Unrolls loops, puts parts in place, and resolves what is left. Steps are met in the order in which they will run. */
final class Steps {

    private static final int STEPS_AT_MOST = 20_000;

    private final Lookup lookup;
    private final Map<String, Sequence.Part> parts;
    private final Stimuli stimuli;
    private final Expectations expectations;
    private final SignalText text;
    private boolean asks;
    private int met;

    Steps(
            Lookup lookup,
            Map<String, Sequence.Part> parts,
            Stimuli stimuli,
            Expectations expectations,
            SignalText text) {
        this.lookup = lookup;
        this.parts = parts;
        this.stimuli = stimuli;
        this.expectations = expectations;
        this.text = text;
    }

    /** The steps between start and tidy-up, where expectations stand. */
    List<PlanStep> asking(List<Step> steps, Scope scope) {
        asks = true;
        return resolved(steps, scope);
    }

    /** The steps around them, which ask nothing. */
    List<PlanStep> driving(List<Step> steps, Scope scope) {
        asks = false;
        return resolved(steps, scope);
    }

    PlanStep.WaitUntil waitUntil(Step.WaitUntil wait, Scope scope) {
        return new PlanStep.WaitUntil(
                lookup.conditions().resolve(wait.condition(), scope),
                Stimuli.micros(lookup.figures().stretch(wait.atMost(), scope)),
                "wait until " + text.condition(wait.condition(), scope) + ", at most "
                        + lookup.text().value(wait.atMost(), scope),
                wait.place().toString());
    }

    private List<PlanStep> resolved(List<Step> steps, Scope scope) {
        List<PlanStep> planned = new ArrayList<>();
        for (Step step : steps) {
            if (++met > STEPS_AT_MOST) {
                lookup.mistake(
                        step.place(),
                        "the loops unroll to more than " + STEPS_AT_MOST + " steps",
                        "fewer",
                        "leave values out, or split the sequence");
                return planned;
            }
            if (!nested(step, scope, planned) && scope.whyNot().isEmpty()) {
                planned.add(single(step, scope));
            }
        }
        return planned;
    }

    /** Steps that hold steps or expectations; false if it is none of them. */
    private boolean nested(Step step, Scope scope, List<PlanStep> planned) {
        if (step instanceof Step.ForEach loop) {
            for (Operand value : loop.values()) {
                if (met > STEPS_AT_MOST) {
                    break;
                }
                lookup.figures()
                        .meant(value, scope)
                        .map(meant -> scope.in(loop.variable(), meant, FigureText.inId(meant)))
                        .ifPresent(inside -> planned.addAll(resolved(loop.steps(), inside)));
            }
        } else if (step instanceof Step.CallPart call) {
            planned.addAll(part(call, scope));
        } else if (step instanceof Step.OnlyIf only) {
            boolean so = lookup.subject().wiring().design().is(only.option());
            planned.addAll(resolved(only.steps(), so ? scope : scope.leftOut(whyNot(only.option()))));
        } else if (step instanceof Step.Expect expect) {
            mayAsk(step);
            List<PlannedExpectation> asked = expectations.planned(expect.expectations(), scope, false);
            if (!asked.isEmpty()) {
                planned.add(new PlanStep.Expect(
                        asked, "expect " + names(asked), step.place().toString()));
            }
        } else if (step instanceof Step.While during) {
            mayAsk(step);
            List<PlannedExpectation> asked = expectations.planned(during.expectations(), scope, true);
            List<PlanStep> inner = resolved(during.steps(), scope);
            if (scope.whyNot().isEmpty()) {
                planned.add(new PlanStep.While(
                        asked,
                        inner,
                        asked.isEmpty() ? "meanwhile" : "meanwhile expect " + names(asked),
                        step.place().toString()));
            }
        } else {
            return false;
        }
        return true;
    }

    private PlanStep single(Step step, Scope scope) {
        if (step instanceof Step.Stimulate stimulate) {
            return stimuli.drive(stimulate, scope);
        }
        if (step instanceof Step.WaitUntil wait) {
            return waitUntil(wait, scope);
        }
        Step.Wait wait = (Step.Wait) step;
        return new PlanStep.Wait(
                Stimuli.micros(lookup.figures().seconds(wait.time(), scope)),
                "wait " + lookup.text().value(wait.time(), scope),
                wait.place().toString());
    }

    private List<PlanStep> part(Step.CallPart call, Scope scope) {
        Sequence.Part part = parts.get(call.part());
        if (part == null) {
            String near = NearestName.hint(call.part(), parts.keySet());
            String known = parts.isEmpty()
                    ? "the sequence includes none; include the file that has it"
                    : "its parts are "
                            + String.join(", ", parts.keySet().stream().sorted().toList());
            lookup.mistake(call.place(), "there is no part '" + call.part() + "'", "", near.isEmpty() ? known : near);
            return List.of();
        }
        if (scope.parts().contains(call.part())) {
            lookup.mistake(
                    call.place(),
                    "part '" + call.part() + "' calls itself: " + String.join(" > ", scope.parts()) + " > "
                            + call.part(),
                    "parts that come to an end",
                    "");
            return List.of();
        }
        return resolved(part.steps(), scope.inPart(call.part()));
    }

    private void mayAsk(Step step) {
        if (!asks) {
            lookup.mistake(
                    step.place(),
                    "an expectation stands in prepare or tidy-up",
                    "steps that only drive or wait",
                    "move it to steps");
        }
    }

    private String whyNot(DesignOption option) {
        return whyNot(option, lookup.subject().wiring().design());
    }

    /** Why a unit is not asked what is meant for units of another design. */
    static String whyNot(DesignOption wanted, Design design) {
        String has = design.options().stream()
                .filter(option -> option.flag() == wanted.flag())
                .map(DesignOption::text)
                .findFirst()
                .orElseThrow();
        return "the unit's " + wanted.flag().text() + " is " + has + ", not " + wanted.text();
    }

    /** Each once, however many vehicles it is asked of. */
    private static String names(List<PlannedExpectation> expectations) {
        return expectations.stream()
                .map(expectation -> expectation.id().replaceAll("@\\d+$", ""))
                .distinct()
                .collect(Collectors.joining(", "));
    }
}
