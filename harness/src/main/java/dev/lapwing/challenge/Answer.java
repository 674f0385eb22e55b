package dev.lapwing.challenge;

import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Estimate;
import java.util.Optional;

/**
 * What one run made of a question.
 *
 * @param question the question
 * @param measured what was measured; empty if it was refused
 * @param truth    the true value, base unit
 * @param refusal  why not, where it was refused
 * @param delayUs  delay of the link in that run
 */
public record Answer(Question question, Optional<Estimate> measured, double truth, String refusal, long delayUs) {

    /** Measured minus true, base unit. */
    double error() {
        return measured.orElseThrow().value() - truth;
    }

    /** The error in units of the stated standard uncertainty. */
    double ratio() {
        return error() / measured.orElseThrow().standardUncertainty();
    }

    /** True if the stated interval holds the truth, the count is right within its doubt, the claimed order right. */
    boolean right() {
        Estimate estimate = measured.orElseThrow();
        return switch (question.kind()) {
            case VALUE, COUNT -> estimate.covers(truth);
            case ORDER -> Math.abs(estimate.value()) <= estimate.expanded() || estimate.value() * truth >= 0;
        };
    }

    /** Kind of the source that adds most: {@code calibration}. */
    String dominant() {
        return measured.orElseThrow()
                .dominant()
                .map(Component::source)
                .map(source -> source.split("/")[0])
                .orElse("");
    }
}
