package dev.lapwing.judge;

import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Limit;
import dev.lapwing.finding.Verdict;
import dev.lapwing.measure.Measurement;
import dev.lapwing.measure.Words;
import dev.lapwing.uncertainty.Estimate;
import java.util.Optional;
import java.util.OptionalDouble;

/** Makes findings of measurements, and of what was not measured. */
record Findings(Words words) {

    Finding finding(String id, String sentence, String place, Limit limit, Measurement measurement) {
        Said said = said(limit, measurement);
        return new Finding(
                id,
                sentence,
                place,
                said.verdict,
                Words.sentence(said.because),
                said.measured,
                measurement.quantity(),
                Optional.of(limit),
                said.margin,
                Optional.of(measurement.window()),
                measurement.marks());
    }

    /** What is said of a measurement. */
    private record Said(Verdict verdict, String because, Optional<Estimate> measured, OptionalDouble margin) {}

    private Said said(Limit limit, Measurement measurement) {
        if (measurement instanceof Measurement.Measured measured) {
            return measured(limit, measured);
        }
        if (measurement instanceof Measurement.NeverHappened never) {
            return never(limit, never);
        }
        Measurement.NotMeasurable not = (Measurement.NotMeasurable) measurement;
        String because = "not measured: " + not.reason() + "; " + not.mend();
        return new Said(Verdict.INCONCLUSIVE, because, Optional.empty(), OptionalDouble.empty());
    }

    private Said measured(Limit limit, Measurement.Measured measured) {
        Decision decision = Decision.of(measured.estimate(), limit, words);
        String because = measured.quantity() + " was " + words.estimate(measured.estimate()) + ", limit "
                + words.limit(limit) + ": " + decision.words();
        return new Said(
                decision.verdict(), because, Optional.of(measured.estimate()), OptionalDouble.of(decision.margin()));
    }

    /**
     * Nothing happened, so the time is longer than it was watched, unless the level was missed within the doubt of
     * it.
     */
    private Said never(Limit limit, Measurement.NeverHappened never) {
        double doubt = never.reached().map(Estimate::expanded).orElse(0.0);
        boolean near = never.reached().isPresent() && never.shortBy() <= doubt;
        boolean early = limit.upper().isPresent()
                && never.window().seconds() < limit.upper().getAsDouble();
        String why = never.instead() + ", limit " + words.limit(limit);
        if (near) {
            why += ": conditional fail, short by less than the uncertainty"
                    + never.reached().map(Blame::of).orElse("");
        } else if (early) {
            why += ": not watched for so long; watch it for as long as the limit";
        }
        Verdict verdict = near || early ? Verdict.INCONCLUSIVE : Verdict.FAIL;
        return new Said(verdict, why, never.reached(), OptionalDouble.empty());
    }

    /** Of something that was not watched at all. */
    static Finding notRun(String id, String sentence, String place, Optional<Limit> limit, String why) {
        return Finding.unmeasured(id, sentence, place, Verdict.NONE, why, limit, Optional.empty());
    }

    /** The same, from which nothing follows, and why. */
    static Finding inconclusive(Finding finding, String because) {
        return new Finding(
                finding.id(),
                finding.sentence(),
                finding.place(),
                Verdict.INCONCLUSIVE,
                because,
                finding.measured(),
                finding.quantity(),
                finding.limit(),
                finding.margin(),
                finding.window(),
                finding.marks());
    }
}
