package dev.lapwing.report;

import dev.lapwing.evidence.WholeRun;
import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Verdict;
import dev.lapwing.uncertainty.Conformity;
import dev.lapwing.uncertainty.DecisionRule;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.StringJoiner;
import java.util.TreeMap;
import java.util.stream.Collectors;

/** Wording that all reports share, so that they say the same. */
public final class Sentences {
    static final String RULE =
            "Guarded acceptance and guarded rejection (JCGM 106:2012; ILAC-G8:09/2019) with a guard band"
                    + " w = U, the expanded uncertainty for 95.45 % (k = 2, more where its size rests on few"
                    + " observations): inside the limit by more than U passes, outside by"
                    + " more than U fails, anything nearer to the limit is inconclusive (conditional pass or"
                    + " conditional fail). A figure with a risk of its own, or under the simple rule, says so."
                    + " Nothing passes that was not measured.";

    private Sentences() {}

    /** {@code 2 fail, 1 inconclusive, 12 pass, 3 none}; the worst first. */
    static String counts(List<Finding> findings) {
        Map<Verdict, Long> byVerdict = findings.stream()
                .collect(Collectors.groupingBy(
                        Finding::verdict, () -> new TreeMap<>(Comparator.reverseOrder()), Collectors.counting()));
        StringJoiner text = new StringJoiner(", ").setEmptyValue("no findings");
        byVerdict.forEach((verdict, count) -> text.add(count + " " + verdict.text()));
        return text.toString();
    }

    /** {@code 3 sequences}, or {@code 2 of 3 sequences} where fewer have a record than were to be run. */
    static String sequences(WholeRun run) {
        int told = run.records().size();
        return (told < run.due() ? told + " of " : "") + count(Math.max(told, run.due()), "sequence");
    }

    /** How a limit is decided, a clause. */
    static String rule(DecisionRule rule) {
        if (!rule.guards()) {
            return "simple rule: the value alone decides";
        }
        return rule.risk().isEmpty()
                ? "guarded by U"
                : "guarded so that at most " + DecisionRule.percent(rule.risk().getAsDouble())
                        + " of verdicts at the edge are wrong";
    }

    /** How likely what was measured is inside, and the verdict wrong (JCGM 106). */
    static String risk(Finding finding, Conformity conformity) {
        String inside = "Inside its limit with a probability of " + chance(conformity.probability());
        return switch (finding.verdict()) {
            case PASS -> inside + "; consumer's risk of this pass " + chance(conformity.consumersRisk()) + ".";
            case FAIL -> inside + "; producer's risk of this fail " + chance(conformity.producersRisk()) + ".";
            default -> inside + ".";
        };
    }

    /** What a part makes of a whole, {@code 82 %}; never nothing where it is something, nor all where more adds. */
    static String share(double share) {
        if (share > 0 && share < 0.005) {
            return "< 1 %";
        }
        return share >= 0.995 && share < 1 ? "> 99 %" : Math.round(share * 100) + " %";
    }

    private static String chance(double probability) {
        if (probability > 0.9999) {
            return "more than 99.99 %";
        }
        return probability < 0.0001 ? "less than 0.01 %" : String.format(Locale.ROOT, "%.2f %%", probability * 100);
    }

    /** ILAC-G8's words for a finding within the guard band; empty for every other. */
    static String conditional(Finding finding) {
        boolean guarded = finding.verdict() == Verdict.INCONCLUSIVE
                && finding.measured().isPresent()
                && finding.margin().isPresent()
                && finding.limit()
                        .filter(l -> l.rule().guards())
                        .filter(l -> !l.holds(finding.measured().get()))
                        .filter(l -> !l.excludes(finding.measured().get()))
                        .isPresent();
        if (!guarded) {
            return "";
        }
        return finding.margin().getAsDouble() >= 0 ? "conditional pass" : "conditional fail";
    }

    /**
     * {@code limit ep-rise-time, guarded rule; HLR-BT-014, 5.7 (fixtures/classic.yaml:66:20)}; empty without a limit.
     */
    static String limitSource(Finding finding) {
        return finding.limit()
                .map(l -> "limit " + l.figure() + ", " + l.rule().text() + " rule; " + l.source() + " (" + l.place()
                        + ")")
                .orElse("");
    }

    /** Bench time as people say it: {@code 95 s}, {@code 6 min 20 s}. */
    static String duration(double seconds) {
        long whole = Math.round(seconds);
        if (whole < 120) {
            return seconds < 10 ? String.format(Locale.ROOT, "%.1f s", seconds) : whole + " s";
        }
        return whole / 60 + " min" + (whole % 60 == 0 ? "" : " " + whole % 60 + " s");
    }

    /** The words with the capital that begins a sentence. */
    static String begun(String words) {
        return words.isEmpty() ? words : words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
    }

    /** {@code 1 sequence}, {@code 3 sequences}. */
    public static String count(long number, String thing) {
        return number + " " + thing + (number == 1 ? "" : "s");
    }
}
