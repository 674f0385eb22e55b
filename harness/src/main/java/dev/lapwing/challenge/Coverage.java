package dev.lapwing.challenge;

import dev.lapwing.challenge.Question.Kind;
import dev.lapwing.plan.Check;
import dev.lapwing.uncertainty.Observations;
import dev.lapwing.uncertainty.Proportion;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;

/**
 * What the answers to one question come to.
 *
 * @param question the question
 * @param measured how many were measured
 * @param refused  how many were refused
 * @param right    how many of the measured ones were right
 * @param bias     mean error in units of the stated standard uncertainty
 * @param spread   standard deviation of the same
 * @param trend    correlation of the same with the delay of the link
 * @param dominant kind of the source that adds most most often; empty where nothing is in doubt
 */
public record Coverage(
        Question question,
        int measured,
        int refused,
        int right,
        double bias,
        double spread,
        double trend,
        String dominant) {
    /** Level of confidence with which the study claims that something is wrong. */
    static final double SURE = 0.999;
    /**
     * Standard deviations that a bias, a trend or a scatter must show: with so many quantities in one study, chance
     * alone would reach 3.29 (99.9 %) in one study of ten.
     */
    private static final double SURE_FACTOR = 4.5;

    private static final double COVERAGE_LEAST = 0.94;
    private static final double COVERAGE_CONSERVATIVE = 0.98;
    private static final double WRONG_GREATEST = 0.01;
    private static final double BIAS_GREATEST = 0.1;
    /** By how much the errors of times may scatter more or less than stated. */
    private static final double SPREAD_GREATEST = 0.1;

    static Coverage of(Question question, List<Answer> answers) {
        List<Answer> measured =
                answers.stream().filter(a -> a.measured().isPresent()).toList();
        int right = (int) measured.stream().filter(Answer::right).count();
        List<Answer> doubted = measured.stream()
                .filter(a -> a.measured().get().standardUncertainty() > 0)
                .toList();
        double[] ratios = doubted.stream().mapToDouble(Answer::ratio).toArray();
        double[] delays = doubted.stream().mapToDouble(Answer::delayUs).toArray();
        double bias = mean(ratios);
        double variance = product(ratios, bias, ratios, bias);
        double spread = Math.sqrt(variance * ratios.length / Math.max(1, ratios.length - 1));
        double meanDelay = mean(delays);
        double both = Math.sqrt(variance * product(delays, meanDelay, delays, meanDelay));
        double trend = both == 0 ? 0 : product(ratios, bias, delays, meanDelay) / both;
        int refused = answers.size() - measured.size();
        return new Coverage(question, measured.size(), refused, right, bias, spread, trend, dominant(doubted));
    }

    private static String dominant(List<Answer> answers) {
        Map<String, Long> often = answers.stream()
                .map(Answer::dominant)
                .collect(Collectors.groupingBy(Function.identity(), TreeMap::new, Collectors.counting()));
        return often.entrySet().stream()
                .max(Map.Entry.comparingByValue())
                .map(Map.Entry::getKey)
                .orElse("");
    }

    private static double mean(double[] values) {
        double sum = 0;
        for (double value : values) {
            sum += value;
        }
        return values.length == 0 ? 0 : sum / values.length;
    }

    private static double product(double[] x, double xMean, double[] y, double yMean) {
        double sum = 0;
        for (int i = 0; i < x.length; i++) {
            sum += (x[i] - xMean) * (y[i] - yMean);
        }
        return x.length == 0 ? 0 : sum / x.length;
    }

    /** True for a time of a crossing told by benches that stamp: its errors are to scatter as stated. */
    boolean stampedTime() {
        return question.stamped() && question.check() instanceof Check.Crossing;
    }

    /** How many were right; empty where none was measured. */
    Optional<Proportion> proportion() {
        return measured == 0 ? Optional.empty() : Optional.of(new Proportion(right, measured));
    }

    /** Why the stated uncertainty is not true, a clause; empty where nothing is shown against it. */
    String lie() {
        if (measured == 0) {
            return "never measured";
        }
        double upper = proportion().orElseThrow().upper(SURE);
        if (question.kind() != Kind.VALUE) {
            return upper < 1 - WRONG_GREATEST ? "too often wrong" : "";
        }
        if (upper < COVERAGE_LEAST) {
            return "holds the truth too seldom";
        }
        if (Math.abs(trend) > SURE_FACTOR / Math.sqrt(measured)) {
            return "depends on the delay of the link";
        }
        return measured < 2 ? "" : lie(new Observations(measured, bias, spread));
    }

    private String lie(Observations errors) {
        if (Math.abs(bias) - errors.meanDoubt(SURE_FACTOR) > BIAS_GREATEST) {
            return "biased";
        }
        boolean scatters = errors.leastStandard(SURE_FACTOR) > 1 + SPREAD_GREATEST
                || errors.mostStandard(SURE_FACTOR) < 1 - SPREAD_GREATEST;
        return stampedTime() && scatters ? "does not scatter as stated" : "";
    }

    /** True if more is claimed than is needed: the interval is wider than the errors are. */
    boolean conservative() {
        return question.kind() == Kind.VALUE
                && measured > 0
                && proportion().orElseThrow().share() > COVERAGE_CONSERVATIVE;
    }
}
