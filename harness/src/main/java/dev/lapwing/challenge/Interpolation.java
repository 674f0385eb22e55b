package dev.lapwing.challenge;

import java.util.List;

/**
 * Error of a time where neither noise nor calibration nor stamps spoil it, at 1 kHz: what interpolation leaves.
 *
 * @param question a time
 * @param runs     how many, each with the samples at other instants
 * @param greatest greatest error, in s
 */
public record Interpolation(Question question, int runs, double greatest) {
    /** Greatest error that is allowed, in s. */
    static final double GREATEST = 0.5e-3;

    static Interpolation of(Question question, List<Answer> answers) {
        double greatest = answers.stream()
                .mapToDouble(a -> a.measured().isPresent() ? Math.abs(a.error()) : Double.POSITIVE_INFINITY)
                .max()
                .orElse(Double.POSITIVE_INFINITY);
        return new Interpolation(question, answers.size(), greatest);
    }

    boolean met() {
        return greatest < GREATEST;
    }
}
