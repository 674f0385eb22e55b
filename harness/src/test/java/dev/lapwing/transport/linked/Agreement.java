package dev.lapwing.transport.linked;

import dev.lapwing.evidence.RunRecord;
import dev.lapwing.finding.Finding;
import dev.lapwing.uncertainty.Estimate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;

/**
 * How two runs of one sequence compare: same findings, same verdicts, and each measured quantity within both stated
 * uncertainties of the other.
 *
 * @param findings    of each run
 * @param quantities  measured in both, with an uncertainty
 * @param greatest    greatest difference, as a share of both expanded uncertainties together
 * @param greatestOf  finding that it belongs to; empty if none was compared
 * @param differences what does not agree, a sentence each
 */
public record Agreement(int findings, int quantities, double greatest, String greatestOf, List<String> differences) {
    /**
     * What holds throughout is looked at with every sample. How long it was broken at worst is known to one interval of
     * its stream (that of the supplies) in each of the runs, which its stated uncertainty leaves out.
     */
    private static final double LOOKED_AT_EVERY_SECONDS = 0.010;

    public static Agreement of(RunRecord linked, RunRecord simulated) {
        Map<String, Finding> due =
                simulated.findings().stream().collect(Collectors.toMap(Finding::id, Function.identity()));
        List<String> differences = new ArrayList<>();
        if (linked.findings().size() != due.size()) {
            differences.add(linked.findings().size() + " findings instead of " + due.size());
        }
        int quantities = 0;
        double greatest = 0;
        String greatestOf = "";
        for (Finding finding : linked.findings()) {
            Finding other = due.get(finding.id());
            if (other == null
                    || finding.verdict() != other.verdict()
                    || finding.measured().isPresent() != other.measured().isPresent()) {
                differences.add(said(finding) + ", instead of " + (other == null ? "nothing" : said(other)));
            } else if (finding.measured().isPresent()) {
                Estimate one = finding.measured().get();
                double share = share(finding.id(), one, other.measured().orElseThrow());
                quantities++;
                if (share > greatest) {
                    greatest = share;
                    greatestOf = finding.id();
                }
                if (share > 1) {
                    differences.add(said(finding) + ", instead of " + said(other));
                }
            }
        }
        return new Agreement(linked.findings().size(), quantities, greatest, greatestOf, differences);
    }

    private static String said(Finding finding) {
        return finding.verdict() + " of " + finding.id() + " (" + finding.because() + ")";
    }

    private static double share(String id, Estimate one, Estimate other) {
        double difference = Math.abs(one.value() - other.value());
        double both =
                one.expanded() + other.expanded() + (id.startsWith("throughout/") ? 2 * LOOKED_AT_EVERY_SECONDS : 0);
        return difference == 0 ? 0 : difference / both;
    }
}
