package dev.lapwing.judge;

import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Limit;
import dev.lapwing.finding.Mark;
import dev.lapwing.finding.Verdict;
import dev.lapwing.measure.Measurement;
import dev.lapwing.measure.Words;
import dev.lapwing.plan.PlannedExpectation;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Estimate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/** Turns what was measured for an expectation into its finding. */
record Expectations(Words words) {

    Finding finding(PlannedExpectation expectation, Measurement measurement) {
        Limit limit = expectation.check().limit();
        if (measurement instanceof Measurement.Measured measured) {
            return measured(expectation, limit, measured);
        }
        if (measurement instanceof Measurement.NeverHappened never) {
            return never(expectation, limit, never);
        }
        Measurement.NotMeasurable not = (Measurement.NotMeasurable) measurement;
        String because = Words.sentence("not measured: " + not.reason() + "; " + not.mend());
        return finding(expectation, not, Verdict.INCONCLUSIVE, because, Optional.empty(), OptionalDouble.empty());
    }

    private Finding measured(PlannedExpectation expectation, Limit limit, Measurement.Measured measured) {
        Decision decision = Decision.of(measured.estimate(), limit, words);
        String because = Words.sentence(measured.quantity() + " was " + words.estimate(measured.estimate()) + ", limit "
                + words.limit(limit) + ": " + decision.words());
        return finding(
                expectation,
                measured,
                decision.verdict(),
                because,
                Optional.of(measured.estimate()),
                OptionalDouble.of(decision.margin()));
    }

    /** Nothing happened, so the time is longer than it was watched, unless the level was missed within the doubt of it. */
    private Finding never(PlannedExpectation expectation, Limit limit, Measurement.NeverHappened never) {
        double doubt = never.reached().map(Estimate::expanded).orElse(0.0);
        boolean near = never.reached().isPresent() && never.shortBy() <= doubt;
        boolean early = limit.upper().isPresent()
                && never.window().seconds() < limit.upper().getAsDouble();
        String why = never.instead() + ", limit " + words.limit(limit);
        if (near) {
            why += ": conditional fail, short by less than the uncertainty";
        } else if (early) {
            why += ": not watched for so long";
        }
        Verdict verdict = near || early ? Verdict.INCONCLUSIVE : Verdict.FAIL;
        return finding(expectation, never, verdict, Words.sentence(why), never.reached(), OptionalDouble.empty());
    }

    private Finding finding(
            PlannedExpectation expectation,
            Measurement measurement,
            Verdict verdict,
            String because,
            Optional<Estimate> measured,
            OptionalDouble margin) {
        return new Finding(
                expectation.id(),
                expectation.sentence(),
                expectation.place(),
                verdict,
                because,
                measured,
                measurement.quantity(),
                Optional.of(expectation.check().limit()),
                margin,
                Optional.of(measurement.window()),
                measurement.marks());
    }

    /** Of something that was not watched at all. */
    static Finding notRun(String id, String sentence, String place, Optional<Limit> limit, String why) {
        return of(id, sentence, place, Verdict.NONE, why, limit, Optional.<Window>empty());
    }

    static Finding of(
            String id,
            String sentence,
            String place,
            Verdict verdict,
            String because,
            Optional<Limit> limit,
            Optional<Window> window) {
        return new Finding(
                id,
                sentence,
                place,
                verdict,
                because,
                Optional.empty(),
                "",
                limit,
                OptionalDouble.empty(),
                window,
                List.<Mark>of());
    }
}
