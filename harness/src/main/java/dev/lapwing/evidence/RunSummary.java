package dev.lapwing.evidence;

import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Verdict;
import dev.lapwing.plan.Plan;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/**
 * What {@code run.json} says: enough to list and find records without reading their logs.
 *
 * @param schema         version of the record's format
 * @param run            which run it was
 * @param sequence       name of the sequence
 * @param title          its title
 * @param unit           title of the unit
 * @param fixture        name of the fixture
 * @param acceptance     issue and approver of the acceptance document
 * @param bench          name of the bench
 * @param ended          wall-clock time of the end; empty while the run is on, or if it was never finished
 * @param verdict        greatest verdict of the findings; empty as {@code ended}
 * @param counts         number of findings by verdict
 * @param benchSeconds   bench time that passed, in s
 * @param samples        number of samples
 * @param sha256         of each other file of the record
 * @param evidenceSha256 checksum of what the run proved, the same on every machine; empty as {@code ended}
 * @param seal           SHA-256 of this file's compact form with an empty seal
 */
public record RunSummary(
        int schema,
        RunIdentity run,
        String sequence,
        String title,
        String unit,
        String fixture,
        String acceptance,
        String bench,
        Optional<Instant> ended,
        Optional<Verdict> verdict,
        Map<Verdict, Integer> counts,
        double benchSeconds,
        long samples,
        Map<String, String> sha256,
        String evidenceSha256,
        String seal) {

    static final int SCHEMA = 1;

    public RunSummary {
        counts = new TreeMap<>(counts);
        sha256 = new TreeMap<>(sha256);
    }

    static RunSummary open(RunIdentity run, Plan plan, String planSha256) {
        return new RunSummary(
                        SCHEMA,
                        run,
                        plan.sequence(),
                        plan.title(),
                        plan.unit(),
                        plan.fixture(),
                        plan.acceptance(),
                        plan.bench().name(),
                        Optional.empty(),
                        Optional.empty(),
                        Map.of(),
                        0,
                        0,
                        Map.of(RecordStore.PLAN, planSha256),
                        "",
                        "")
                .sealed();
    }

    RunSummary finished(
            Instant end, List<Finding> findings, Extent extent, Map<String, String> files, String evidence) {
        Map<Verdict, Integer> byVerdict = new TreeMap<>();
        findings.forEach(finding -> byVerdict.merge(finding.verdict(), 1, Integer::sum));
        return new RunSummary(
                        schema,
                        run,
                        sequence,
                        title,
                        unit,
                        fixture,
                        acceptance,
                        bench,
                        Optional.of(end),
                        Optional.of(Verdict.greatest(findings, Finding::verdict)),
                        byVerdict,
                        extent.benchSeconds(),
                        extent.samples(),
                        files,
                        evidence,
                        "")
                .sealed();
    }

    /** How much a log holds. */
    record Extent(double benchSeconds, long samples) {}

    /** False if anything in it was changed after it was written. */
    boolean unchanged() {
        return seal.equals(RecordJson.seal(this));
    }

    private RunSummary sealed() {
        return new RunSummary(
                schema,
                run,
                sequence,
                title,
                unit,
                fixture,
                acceptance,
                bench,
                ended,
                verdict,
                counts,
                benchSeconds,
                samples,
                sha256,
                evidenceSha256,
                RecordJson.seal(this));
    }
}
