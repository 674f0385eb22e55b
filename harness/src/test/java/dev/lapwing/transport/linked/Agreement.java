package dev.lapwing.transport.linked;

import dev.lapwing.evidence.RunRecord;
import dev.lapwing.finding.Finding;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.uncertainty.Estimate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.hipparchus.distribution.continuous.TDistribution;

/**
 * How a run over a link compares with simulated runs of the same sequence: same findings, same verdicts, and each
 * measured quantity within both stated uncertainties of what the unit does. There may be several simulated runs, with
 * commands a little earlier or later: by how much the unit itself does otherwise then is no matter of the link.
 *
 * @param findings    of each run
 * @param quantities  measured in all of them
 * @param greatest    greatest distance from what the simulated runs measured, as a share of both expanded uncertainties
 *                    together
 * @param greatestOf  finding that it belongs to; empty if none was compared
 * @param differences what does not agree, a sentence each
 */
public record Agreement(int findings, int quantities, double greatest, String greatestOf, List<String> differences) {
    /**
     * What holds throughout is looked at with every sample. How long it was broken at worst is known to one interval of
     * its stream (that of the supplies) in each of the runs, which its stated uncertainty leaves out.
     */
    private static final double LOOKED_AT_EVERY_SECONDS = 0.010;

    /** The simulated unit looks at its wires once in a step of the plant: when it answers is no truer than that. */
    private static final double STEP_SECONDS = 0.001;

    /** @param simulated at least one */
    public static Agreement of(RunRecord linked, List<RunRecord> simulated) {
        Map<String, List<Finding>> due =
                simulated.stream().flatMap(run -> run.findings().stream()).collect(Collectors.groupingBy(Finding::id));
        List<String> differences = new ArrayList<>();
        if (linked.findings().size() != due.size()) {
            differences.add(linked.findings().size() + " findings instead of " + due.size());
        }
        int quantities = 0;
        double greatest = 0;
        String greatestOf = "";
        for (Finding finding : linked.findings()) {
            List<Finding> others = due.getOrDefault(finding.id(), List.of());
            if (others.stream().noneMatch(other -> alike(finding, other))) {
                differences.add(said(finding) + ", instead of "
                        + others.stream().map(Agreement::said).toList());
            } else if (finding.measured().isPresent()) {
                double share = share(finding, others);
                quantities++;
                if (share > greatest) {
                    greatest = share;
                    greatestOf = finding.id();
                }
                if (share > 1) {
                    differences.add(said(finding) + ", instead of "
                            + others.stream().map(Agreement::said).toList());
                }
            }
        }
        return new Agreement(linked.findings().size(), quantities, greatest, greatestOf, differences);
    }

    private static boolean alike(Finding one, Finding other) {
        return one.verdict() == other.verdict()
                && one.measured().isPresent() == other.measured().isPresent();
    }

    private static String said(Finding finding) {
        return finding.verdict() + " of " + finding.id() + " (" + finding.because() + ")";
    }

    private static double share(Finding finding, List<Finding> others) {
        Estimate one = finding.measured().orElseThrow();
        List<Estimate> due =
                others.stream().flatMap(other -> other.measured().stream()).toList();
        double distance = Math.max(0, Math.abs(one.value() - mean(due)) - repeats(due));
        double both = one.expanded()
                + due.get(0).expanded()
                + (one.dimension() == Dimension.TIME ? STEP_SECONDS : 0)
                + (finding.id().startsWith("throughout/") ? 2 * LOOKED_AT_EVERY_SECONDS : 0);
        return distance == 0 ? 0 : distance / both;
    }

    private static double mean(List<Estimate> due) {
        return due.stream().mapToDouble(Estimate::value).average().orElseThrow();
    }

    /**
     * How far one more run of the specimen lies from the mean of those at most, in 99 of 100 cases: a prediction
     * interval by Student's t. Source: G. J. Hahn, W. Q. Meeker, "Statistical Intervals", Wiley 1991, section 4.7, from
     * memory. The range of seven runs would leave one in four outside.
     */
    private static double repeats(List<Estimate> due) {
        int runs = due.size();
        if (runs < 2) {
            return 0;
        }
        double mean = mean(due);
        double squares = due.stream()
                .mapToDouble(one -> (one.value() - mean) * (one.value() - mean))
                .sum();
        double factor = new TDistribution(runs - 1).inverseCumulativeProbability(0.995);
        return factor * Math.sqrt(squares / (runs - 1) * (1 + 1.0 / runs));
    }
}
