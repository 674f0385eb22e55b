package dev.lapwing.transport;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.evidence.RunRecord;
import dev.lapwing.finding.Finding;
import dev.lapwing.uncertainty.Estimate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;

/**
 * How well what is measured over a link agrees with what is measured in this process. Each difference is divided by
 * both expanded uncertainties (k = 2) combined; were both runs wholly independent, one in twenty would lie beyond 1.
 */
final class Agreement {
    private static final double BEYOND_SHARE = 0.05;
    /** So unlikely must a count be before it says that the runs disagree. */
    private static final double UNLIKELY = 0.001;
    /**
     * What holds throughout is looked at with every sample. How long it was broken at worst is known to one interval of
     * its stream (that of the supplies), which its stated uncertainty leaves out.
     */
    private static final double LOOKED_AT_EVERY_SECONDS = 0.010;

    private int compared;
    private final List<String> beyond = new ArrayList<>();
    private double greatest;
    private String greatestOf = "nothing";

    void add(String sequence, RunRecord linked, RunRecord simulated) {
        Map<String, Finding> due =
                simulated.findings().stream().collect(Collectors.toMap(Finding::id, Function.identity()));
        assertThat(linked.findings()).hasSameSizeAs(simulated.findings());
        for (Finding finding : linked.findings()) {
            Finding other = due.get(finding.id());
            assertThat(finding.verdict()).as(sequence + ": " + finding).isEqualTo(other.verdict());
            if (finding.measured().isPresent() && other.measured().isPresent()) {
                compare(
                        sequence + " " + finding.id(),
                        finding.measured().get(),
                        other.measured().get());
            }
        }
    }

    private void compare(String id, Estimate linked, Estimate simulated) {
        double both = Math.hypot(linked.expanded(), simulated.expanded())
                + (id.contains("throughout/") ? LOOKED_AT_EVERY_SECONDS : 0);
        double difference = Math.abs(linked.value() - simulated.value());
        if (both == 0) {
            assertThat(difference).as(id + ", which is counted").isZero();
            return;
        }
        double ratio = difference / both;
        compared++;
        if (ratio > 1) {
            beyond.add(String.format(
                    Locale.ROOT,
                    "%s: %.6g ± %.2g over the link, %.6g ± %.2g in this process",
                    id,
                    linked.value(),
                    linked.expanded(),
                    simulated.value(),
                    simulated.expanded()));
        }
        if (ratio > greatest) {
            greatest = ratio;
            greatestOf = id;
        }
    }

    int beyond() {
        return beyond.size();
    }

    /** The least count that more of them exceed by chance only once in a thousand times. */
    int beyondAllowed() {
        double probability = Math.pow(1 - BEYOND_SHARE, compared);
        double upTo = probability;
        int count = 0;
        while (1 - upTo > UNLIKELY) {
            probability *= (double) (compared - count) / (count + 1) * BEYOND_SHARE / (1 - BEYOND_SHARE);
            upTo += probability;
            count++;
        }
        return count;
    }

    String text() {
        return String.format(
                Locale.ROOT,
                "%d quantities compared, %d beyond both uncertainties combined (%d may be), greatest ratio %.2f (%s)%s",
                compared,
                beyond.size(),
                beyondAllowed(),
                greatest,
                greatestOf,
                beyond.stream().map(line -> "\n    " + line).collect(Collectors.joining()));
    }
}
