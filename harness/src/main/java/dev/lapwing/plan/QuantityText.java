package dev.lapwing.plan;

import dev.lapwing.sequence.Expectation;
import dev.lapwing.sequence.ResponseTerm;
import java.util.Locale;
import java.util.Optional;

/** Expectations of defined quantities as sentences, with their limits and units. */
record QuantityText(FigureText figures, SignalText signals) {

    Optional<String> sentence(Expectation expectation, Scope scope) {
        String text = null;
        if (expectation instanceof Expectation.Responds e) {
            text = responds(e, scope);
        } else if (expectation instanceof Expectation.Begins e) {
            text = signals.signal(e.signal(), scope) + " begins to " + (e.rising() ? "rise " : "fall ")
                    + figures.time(e.within(), scope);
        } else if (expectation instanceof Expectation.Steepest e) {
            text = "greatest rate of " + (e.rising() ? "rise" : "fall") + " of "
                    + signals.signal(e.signal(), scope) + " is " + figures.amount(e.rate(), scope) + ", over "
                    + figures.value(e.width(), scope) + " at a time, watched for " + figures.value(e.over(), scope);
        } else if (expectation instanceof Expectation.Travels e) {
            text = "speed at which the " + (e.rising() ? "rise" : "fall") + " of the "
                    + e.pressure().text().replace('-', ' ') + " goes along the train is "
                    + figures.amount(e.speed(), scope);
        } else if (expectation instanceof Expectation.Lasts e) {
            text = signals.condition(e.condition(), scope) + " lasts " + figures.amount(e.time(), scope);
        } else if (expectation instanceof Expectation.Recovers e) {
            text = signals.signal(e.signal(), scope) + " is back within " + figures.value(e.band(), scope)
                    + " of the remembered '" + RememberedNames.text(e.remembered(), scope) + "' for good "
                    + figures.time(e.within(), scope);
        } else if (expectation instanceof Expectation.Departs e) {
            text = signals.signal(e.signal(), scope) + " minus the remembered '"
                    + RememberedNames.text(e.remembered(), scope) + "' stays " + figures.amount(e.difference(), scope)
                    + e.over()
                            .map(time -> ", watched for " + figures.value(time, scope))
                            .orElse(", throughout these steps");
        } else if (expectation instanceof Expectation.Graduates e) {
            text = graduates(e, scope);
        }
        return Optional.ofNullable(text);
    }

    private String responds(Expectation.Responds e, Scope scope) {
        String term = e.term().spoken();
        if (e.term() == ResponseTerm.TIME_TO_SHARE) {
            term = "time to "
                    + e.share().map(share -> figures.value(share, scope)).orElse("a share") + " of the change";
        } else if (e.term() == ResponseTerm.SETTLING_DURATION) {
            term += " into " + e.band().map(band -> figures.value(band, scope)).orElse("a band")
                    + " of the change either way";
        }
        String until = figures.value(e.settled(), scope) + " after the stimulus";
        String over = figures.value(e.over(), scope);
        String states = e.byHistogram()
                ? "states by histogram, from the stimulus to " + over + " past " + until
                : "change from "
                        + e.first().map(level -> figures.value(level, scope)).orElse("just before the stimulus")
                        + " to "
                        + e.last().map(level -> figures.value(level, scope)).orElse("the mean over " + over)
                        + (e.last().isPresent() ? ", watched to " : " from ") + until;
        return term + " of " + signals.signal(e.signal(), scope) + " is " + figures.amount(e.limit(), scope) + ", "
                + states;
    }

    private String graduates(Expectation.Graduates e, Scope scope) {
        String with = e.with().map(back -> "' and '" + back).orElse("");
        String answer = e.answer()
                .map(change -> ", where " + figures.value(change, scope) + " is an answer")
                .orElse("");
        return e.term().spoken().toLowerCase(Locale.ROOT) + " of the remembered '" + e.levels() + with + "' is "
                + figures.amount(e.limit(), scope) + answer;
    }
}
