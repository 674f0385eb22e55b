package dev.lapwing.plan;

import dev.lapwing.quantity.Dimension;
import dev.lapwing.sequence.Expectation;
import dev.lapwing.sequence.Operand;
import dev.lapwing.sequence.SignalRef;
import java.util.Optional;
import java.util.OptionalDouble;

/** Expectations as sentences in the words of the trade, with their limits and units. */
record ExpectationText(FigureText figures, SignalText signals) {

    /**
     * The sentence.
     *
     * @param law the law's pressure in Pa at the handle's place, where that is known
     */
    String sentence(Expectation expectation, Scope scope, OptionalDouble law) {
        return level(expectation, scope, law)
                .or(() -> comparison(expectation, scope))
                .or(() -> event(expectation, scope))
                .or(() -> new QuantityText(figures, signals).sentence(expectation, scope))
                .orElseThrow();
    }

    private Optional<String> level(Expectation expectation, Scope scope, OptionalDouble law) {
        String text = null;
        if (expectation instanceof Expectation.SettlesAtLaw e) {
            String target = law.isPresent() ? ", " + figures.quantity(law.getAsDouble(), Dimension.PRESSURE) : "";
            text = signal(e.signal(), scope) + " settles " + figures.amount(e.tolerance(), scope) + " of the " + e.law()
                    + " law" + target + settled(e.settled(), e.over(), scope);
        } else if (expectation instanceof Expectation.SettlesAt e) {
            text = signal(e.signal(), scope) + " settles " + figures.standing(e.level(), scope)
                    + settled(e.settled(), e.over(), scope);
        } else if (expectation instanceof Expectation.Holds e) {
            text = "fall of " + signal(e.signal(), scope) + " is " + figures.amount(e.leak(), scope) + ", from "
                    + figures.value(e.settled(), scope) + " on over " + figures.value(e.over(), scope);
        } else if (expectation instanceof Expectation.StaysBetween e) {
            text = signal(e.signal(), scope) + " stays " + figures.standing(e.band(), scope) + during(e.over(), scope);
        } else if (expectation instanceof Expectation.Follows e) {
            text = signal(e.signal(), scope) + " stays inside the curve " + e.curve() + " after the stimulus";
        } else if (expectation instanceof Expectation.Moves e) {
            text = signal(e.signal(), scope) + " " + figures.change(e.change(), scope)
                    + settled(e.settled(), e.over(), scope);
        } else if (expectation instanceof Expectation.Changes e) {
            text = signal(e.signal(), scope) + " " + figures.change(e.change(), scope) + " from "
                    + figures.value(e.from(), scope) + " to " + figures.value(e.to(), scope) + " after the stimulus";
        }
        return Optional.ofNullable(text);
    }

    private Optional<String> comparison(Expectation expectation, Scope scope) {
        String text = null;
        if (expectation instanceof Expectation.Agrees e) {
            text = signal(e.signal(), scope) + " minus " + signal(e.with(), scope) + " is "
                    + figures.amount(e.difference(), scope) + settled(e.settled(), e.over(), scope);
        } else if (expectation instanceof Expectation.Compares e) {
            text = "what '" + e.expectation() + "' measured, against what '" + e.with() + "' did, is "
                    + figures.amount(e.limit(), scope);
        } else if (expectation instanceof Expectation.Repeats e) {
            text = signal(e.signal(), scope) + " minus the remembered '" + RememberedNames.text(e.remembered(), scope)
                    + "' is " + figures.amount(e.difference(), scope) + settled(e.settled(), e.over(), scope);
        }
        return Optional.ofNullable(text);
    }

    private Optional<String> event(Expectation expectation, Scope scope) {
        String text = null;
        if (expectation instanceof Expectation.RisesAbove e) {
            text = signal(e.signal(), scope) + " rises above " + figures.value(e.level(), scope) + " "
                    + figures.time(e.within(), scope);
        } else if (expectation instanceof Expectation.FallsBelow e) {
            text = signal(e.signal(), scope) + " falls below " + figures.value(e.level(), scope) + " "
                    + figures.time(e.within(), scope);
        } else if (expectation instanceof Expectation.Switches e) {
            text = signal(e.wire(), scope) + " switches " + (e.on() ? "on " : "off ") + figures.time(e.within(), scope);
        } else if (expectation instanceof Expectation.PulsesAtMost e) {
            text = signal(e.wire(), scope) + " switches on " + figures.amount(e.count(), scope)
                    + during(e.over(), scope);
        } else if (expectation instanceof Expectation.Never e) {
            text = "never " + signals.condition(e.condition(), scope)
                    + e.longerThan()
                            .map(time -> " for longer than " + figures.value(time, scope))
                            .orElse("")
                    + during(e.over(), scope);
        } else if (expectation instanceof Expectation.ComesTrue e) {
            text = "from the stimulus on, " + signals.condition(e.condition(), scope) + margin(e.margin(), scope);
        } else if (expectation instanceof Expectation.StaysTrue e) {
            text = "at every instant, " + signals.condition(e.condition(), scope) + margin(e.margin(), scope)
                    + during(e.over(), scope);
        } else if (expectation instanceof Expectation.ComesBefore e) {
            text = signals.condition(e.first(), scope) + " comes before " + signals.condition(e.then(), scope) + " by "
                    + figures.amount(e.by(), scope);
        }
        return Optional.ofNullable(text);
    }

    private String signal(SignalRef ref, Scope scope) {
        return signals.signal(ref, scope);
    }

    private String settled(Operand settled, Operand over, Scope scope) {
        return ", " + figures.value(settled, scope) + " after the stimulus, mean over " + figures.value(over, scope);
    }

    private String margin(Optional<Operand> margin, Scope scope) {
        return margin.map(figure -> ", with a margin of " + figures.amount(figure, scope))
                .orElse("");
    }

    private String during(Optional<Operand> over, Scope scope) {
        return over.map(time -> ", watched for " + figures.value(time, scope)).orElse(", throughout these steps");
    }
}
