package dev.lapwing.challenge;

import dev.lapwing.challenge.Question.Kind;
import dev.lapwing.plan.Check;
import dev.lapwing.uncertainty.Observations;
import dev.lapwing.uncertainty.Proportion;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/**
 * What the answers to one question come to.
 *
 * @param question the question
 * @param measured how many were measured
 * @param refused  how many were refused
 * @param right    how many of the measured ones were right
 * @param errors   errors in units of the stated standard uncertainty; empty for fewer than two
 * @param trend    correlation of the same with the delay of the link
 * @param dominant kind of the source that adds most most often; empty where nothing is in doubt
 */
public record Coverage(
        Question question,
        int measured,
        int refused,
        int right,
        Optional<Observations> errors,
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
        Optional<Observations> errors = ratios.length < 2 ? Optional.empty() : Optional.of(Observations.of(ratios));
        double trend = correlation(ratios, delays);
        int refused = answers.size() - measured.size();
        return new Coverage(question, measured.size(), refused, right, errors, trend, dominant(doubted));
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

    /** Of as many of both; 0 where either is the same throughout. */
    private static double correlation(double[] x, double[] y) {
        double both = Math.sqrt(product(x, x) * product(y, y));
        return both == 0 ? 0 : product(x, y) / both;
    }

    /** Sum of the products of how far each lies from its mean. */
    private static double product(double[] x, double[] y) {
        double xMean = Arrays.stream(x).average().orElse(0);
        double yMean = Arrays.stream(y).average().orElse(0);
        return IntStream.range(0, x.length)
                .mapToDouble(i -> (x[i] - xMean) * (y[i] - yMean))
                .sum();
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
        return errors.map(this::lie).orElse("");
    }

    private String lie(Observations errors) {
        if (Math.abs(errors.mean()) - errors.meanDoubt(SURE_FACTOR) > BIAS_GREATEST) {
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
