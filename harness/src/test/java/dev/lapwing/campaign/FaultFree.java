package dev.lapwing.campaign;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.campaign.CampaignRun.Came;
import dev.lapwing.evidence.RunRecord;
import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Verdict;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.run.Progress;
import dev.lapwing.transport.linked.FarCab;
import dev.lapwing.uncertainty.Estimate;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** What the run gives without any fault and any link: no pass may say anything else. */
final class FaultFree {
    /**
     * What holds throughout is looked at with every sample. How long it was broken at worst is known to one interval of
     * its stream (that of the supplies, 10 ms), which its stated uncertainty leaves out; and the simulated unit goes on
     * by steps of 1 ms.
     */
    private static final double LOOKED_AT_EVERY_SECONDS = 0.011;

    private final Map<String, Finding> findings;
    private final Map<String, Finding> standing;

    private FaultFree(Map<String, Finding> findings, Map<String, Finding> standing) {
        this.findings = findings;
        this.standing = standing;
    }

    static FaultFree run(Path folder) throws BenchFailure, IOException {
        String sequence = Files.readString(CampaignRun.SEQUENCE, UTF_8);
        Path longer = folder.resolve("longer.yaml");
        Files.writeString(longer, sequence.replaceFirst("wait: 500 ms", "wait: 30 s"), UTF_8);
        return new FaultFree(
                findings(CampaignRun.SEQUENCE, folder.resolve("fault-free")),
                findings(longer, folder.resolve("longer")));
    }

    private static Map<String, Finding> findings(Path sequence, Path records) throws BenchFailure {
        try (Bench bench = FarCab.simulated()) {
            RunRecord record = FarCab.on(sequence, bench, FarCab.IN_THIS_PROCESS, records, Progress.NONE);
            assertThat(record.verdict()).as(record.findings().toString()).isEqualTo(Verdict.PASS);
            return record.findings().stream().collect(Collectors.toMap(Finding::id, Function.identity()));
        }
    }

    /** Findings that passed though the run without the fault has another verdict or another value there. */
    List<String> falsePasses(Came came) {
        List<String> wrong = new ArrayList<>();
        for (Finding finding : came.findings()) {
            Finding due = due(finding);
            if (finding.verdict() == Verdict.PASS && !isDue(finding, due, came)) {
                wrong.add("false pass of " + finding.id() + ": " + finding.measured() + ", without the fault "
                        + (due == null ? "nothing" : due.measured()));
            }
        }
        if (came.verdict() == Verdict.PASS
                && (!came.complete() || came.findings().size() != findings.size())) {
            wrong.add("false pass: " + came.findings().size() + " findings of " + findings.size());
        }
        return wrong;
    }

    /** A fault can make a run stand still, and more arises then; it must be as in one that stood without a fault. */
    private @Nullable Finding due(Finding finding) {
        Finding due = findings.get(finding.id());
        return due != null && due.verdict() == Verdict.NONE ? standing.get(finding.id()) : due;
    }

    private static boolean isDue(Finding finding, @Nullable Finding due, Came came) {
        boolean throughout = finding.id().startsWith("throughout/");
        return due != null && due.verdict() == Verdict.PASS && agree(finding, due, throughout, came.complete());
    }

    /**
     * The worst of a run that was cut short is that of a part: it can be better than that of the whole. How long
     * something lasted then has its end where the bench made itself safe or the record ended, and says nothing more
     * than its verdict.
     */
    private static boolean agree(Finding finding, Finding due, boolean throughout, boolean complete) {
        Estimate one = finding.measured().orElseThrow();
        Estimate other = due.measured().orElseThrow();
        boolean ofTime = throughout && one.dimension() == Dimension.TIME;
        double both = Math.hypot(one.expanded(), other.expanded()) + (ofTime ? LOOKED_AT_EVERY_SECONDS : 0);
        double more = one.value() - other.value();
        if (throughout && !complete) {
            return ofTime || more <= both;
        }
        return Math.abs(more) <= both;
    }
}
