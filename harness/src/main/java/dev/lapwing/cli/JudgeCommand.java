package dev.lapwing.cli;

import dev.lapwing.evidence.Gap;
import dev.lapwing.evidence.RunRecord;
import dev.lapwing.evidence.UnreadableRecord;
import dev.lapwing.evidence.WholeRun;
import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Verdict;
import dev.lapwing.judge.Judge;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Judges stored records again and says whether the stored findings stand. */
@Command(
        name = "judge",
        mixinStandardHelpOptions = true,
        description = "Judges stored records again from their raw counts, and says whether their findings stand.",
        exitCodeList = {"0:pass", "1:fail", "2:inconclusive", "3:error, or the record is not as it was written"})
final class JudgeCommand implements Callable<Integer> {
    @Spec
    private CommandSpec spec;

    @Mixin
    private Reading reading;

    @Parameters(arity = "1", paramLabel = "RECORD", description = "A record, or the folder of a whole run.")
    private Path folder;

    @Override
    public Integer call() {
        PrintWriter out = spec.commandLine().getOut();
        PrintWriter err = spec.commandLine().getErr();
        try {
            Verdict verdict = Verdict.NONE;
            WholeRun run = Records.in(folder);
            for (RunRecord record : run.records()) {
                out.print(reading.report().sequence(record));
                verdict = verdict.or(again(record, out));
            }
            for (Gap gap : run.gaps()) {
                out.print(reading.report().gap(gap));
                verdict = verdict.or(gap.verdict());
            }
            out.println("judged again: " + verdict.text());
            return ExitCode.of(verdict).code();
        } catch (UnreadableRecord e) {
            err.println("lapwing: " + e.getMessage());
            return ExitCode.USAGE.code();
        }
    }

    /** Never better than it was: of a record that does not stand as it is, nobody has proven a pass. */
    private Verdict again(RunRecord record, PrintWriter out) throws UnreadableRecord {
        List<Finding> findings =
                new Judge(reading.pressures()).judge(record.plan(), record.recording(), record.course());
        Verdict verdict = Verdict.greatest(findings, Finding::verdict).or(record.verdict());
        if (record.summary().ended().isEmpty()) {
            out.println("  the run was not finished: there are no findings that could stand");
            return verdict;
        }
        List<String> changed = changed(record.findings(), findings);
        changed.forEach(line -> out.println("  judged otherwise now: " + line));
        String stored = record.summary().evidenceSha256();
        if (!stored.equals(record.evidenceSha256(record.findings()))) {
            out.println("  " + (changed.isEmpty() ? "every finding stands, but the" : "the")
                    + " evidence is not what evidence-sha256 was computed over");
            return Verdict.ERROR;
        }
        if (changed.isEmpty()) {
            out.println("  every finding stands; evidence-sha256 " + stored);
        }
        return verdict;
    }

    private static List<String> changed(List<Finding> stored, List<Finding> now) {
        List<String> changed = new ArrayList<>();
        for (Finding finding : now) {
            stored.stream()
                    .filter(old -> old.id().equals(finding.id()))
                    .filter(old -> old.verdict() != finding.verdict())
                    .forEach(old ->
                            changed.add(finding.id() + ": " + old.verdict().text() + ", now "
                                    + finding.verdict().text() + ": " + finding.because()));
            if (stored.stream().noneMatch(old -> old.id().equals(finding.id()))) {
                changed.add(finding.id() + ": not judged then, now "
                        + finding.verdict().text());
            }
        }
        for (Finding old : stored) {
            if (now.stream().noneMatch(finding -> finding.id().equals(old.id()))) {
                changed.add(old.id() + ": " + old.verdict().text() + " then, not judged now");
            }
        }
        return changed;
    }
}
