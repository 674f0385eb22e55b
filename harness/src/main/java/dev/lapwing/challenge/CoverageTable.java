package dev.lapwing.challenge;

import dev.lapwing.challenge.Question.Kind;
import dev.lapwing.plan.Check;
import dev.lapwing.uncertainty.Observations;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.DoubleSummaryStatistics;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.StringJoiner;
import java.util.TreeMap;
import java.util.function.ToDoubleFunction;

/**
 * What a study found, as a table.
 *
 * @param quantities one for each question, in their order
 * @param times      how well times are interpolated
 * @param refusals   how often each reason was given for measuring nothing
 */
public record CoverageTable(List<Coverage> quantities, List<Interpolation> times, Map<String, Integer> refusals) {

    private static final String HEAD =
            "| quantity | measured | refused | holds the truth | 99.9 % interval | bias / u |"
                    + " spread / u | mostly | remark |";
    private static final String RULE = "| --- | ---: | ---: | ---: | ---: | ---: | ---: | --- | --- |";

    /**
     * @param answers of all runs, in any order
     * @param ideal   of the ideal runs
     */
    public static CoverageTable of(List<Answer> answers, List<Answer> ideal) {
        List<Coverage> quantities = new ArrayList<>();
        byQuestion(answers).forEach((question, given) -> quantities.add(Coverage.of(question, given)));
        List<Interpolation> times = new ArrayList<>();
        byQuestion(ideal).forEach((question, given) -> {
            if (question.check() instanceof Check.Crossing) {
                times.add(Interpolation.of(question, given));
            }
        });
        Map<String, Integer> refusals = new TreeMap<>();
        answers.stream()
                .filter(answer -> answer.measured().isEmpty())
                .forEach(answer -> refusals.merge(kind(answer.refusal()), 1, Integer::sum));
        return new CoverageTable(quantities, times, refusals);
    }

    private static Map<Question, List<Answer>> byQuestion(List<Answer> answers) {
        Map<Question, List<Answer>> by = new LinkedHashMap<>();
        answers.forEach(answer ->
                by.computeIfAbsent(answer.question(), q -> new ArrayList<>()).add(answer));
        // Runs look at the scenes in turn; each scene keeps its questions in their order.
        List<String> scenes =
                by.keySet().stream().map(Question::scene).distinct().toList();
        Map<Question, List<Answer>> sorted = new LinkedHashMap<>();
        by.entrySet().stream()
                .sorted(Comparator.comparingInt(
                        entry -> scenes.indexOf(entry.getKey().scene())))
                .forEach(entry -> sorted.put(entry.getKey(), entry.getValue()));
        return sorted;
    }

    /** A reason without its figures. */
    private static String kind(String reason) {
        return reason.replaceAll("[0-9]+(\\.[0-9]+)?", "…");
    }

    /** True if nothing was shown against any stated uncertainty. */
    public boolean met() {
        return quantities.stream().allMatch(quantity -> quantity.lie().isEmpty())
                && times.stream().allMatch(Interpolation::met);
    }

    /** The table in Markdown, and below it what speaks against it. */
    public String text() {
        StringJoiner lines = new StringJoiner("\n", "", "\n");
        String scene = "";
        for (Coverage quantity : quantities) {
            if (!quantity.question().scene().equals(scene)) {
                scene = quantity.question().scene();
                lines.add((lines.length() > 1 ? "\n" : "") + "### " + heading(scene))
                        .add("")
                        .add(HEAD)
                        .add(RULE);
            }
            lines.add(row(quantity));
        }
        lines.add("");
        double greatest =
                times.stream().mapToDouble(Interpolation::greatest).max().orElse(0);
        lines.add(print(
                "Interpolation alone, at 1 kHz: greatest error of %d times %.3f ms, below %.1f ms allowed.",
                times.size(), greatest * 1e3, Interpolation.GREATEST * 1e3));
        times.stream()
                .filter(time -> !time.met())
                .forEach(time -> lines.add(print("  %s: %.3f ms", name(time.question()), time.greatest() * 1e3)));
        String spreads = timesText();
        if (!spreads.isEmpty()) {
            lines.add("").add(spreads);
        }
        if (!refusals.isEmpty()) {
            lines.add("").add("Refused:");
            refusals.forEach((reason, times) -> lines.add("- " + times + " times: " + reason));
        }
        return lines.add("").add(verdict()).toString();
    }

    private static String heading(String scene) {
        return Character.toUpperCase(scene.charAt(0)) + scene.substring(1);
    }

    /** How the errors of times lie, in stated standard uncertainties, where benches stamp at the source. */
    private String timesText() {
        List<Coverage> told = quantities.stream().filter(Coverage::stampedTime).toList();
        DoubleSummaryStatistics bias = over(told, Observations::mean);
        DoubleSummaryStatistics spread = over(told, Observations::standard);
        return told.isEmpty()
                ? ""
                : print(
                        "Times of crossings, benches that stamp: %d quantities, bias %+.3f to %+.3f, spread %.3f to"
                                + " %.3f.",
                        told.size(), bias.getMin(), bias.getMax(), spread.getMin(), spread.getMax());
    }

    private static DoubleSummaryStatistics over(List<Coverage> told, ToDoubleFunction<Observations> figure) {
        return told.stream()
                .flatMap(quantity -> quantity.errors().stream())
                .mapToDouble(figure)
                .summaryStatistics();
    }

    private String verdict() {
        long lies = quantities.stream().filter(q -> !q.lie().isEmpty()).count();
        long conservative = quantities.stream().filter(Coverage::conservative).count();
        return print(
                "%s: %d quantities, %d not as stated, %d conservative.",
                met() ? "met" : "not met", quantities.size(), lies, conservative);
    }

    private static String name(Question question) {
        return question.scene() + ", " + question.name();
    }

    private static String row(Coverage quantity) {
        StringJoiner cells = new StringJoiner(" | ", "| ", " |");
        cells.add(quantity.question().name());
        cells.add(Integer.toString(quantity.measured())).add(Integer.toString(quantity.refused()));
        cells.add(quantity.proportion()
                .map(p -> print("%.2f %%", p.share() * 100))
                .orElse(""));
        cells.add(quantity.proportion()
                .map(p -> print("%.1f to %.1f %%", p.lower(Coverage.SURE) * 100, p.upper(Coverage.SURE) * 100))
                .orElse(""));
        Optional<Observations> errors = quantity.question().kind() == Kind.VALUE ? quantity.errors() : Optional.empty();
        cells.add(errors.map(e -> print("%+.3f", e.mean())).orElse(""));
        cells.add(errors.map(e -> print("%.3f", e.standard())).orElse(""));
        cells.add(quantity.dominant());
        String remark = quantity.conservative() ? "conservative" : "";
        return cells.add(quantity.lie().isEmpty() ? remark : quantity.lie()).toString();
    }

    private static String print(String format, Object... values) {
        return String.format(Locale.ROOT, format, values);
    }
}
