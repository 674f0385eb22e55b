package dev.lapwing.evidence;

import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Verdict;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;

/**
 * All that one command ran: its records, and what it was to hold besides.
 *
 * @param records in the order of the run where its list is there
 * @param due     number of sequences that were to be run
 * @param gaps    what is not there, or not as it was
 */
public record WholeRun(List<RunRecord> records, int due, List<Gap> gaps) {

    public WholeRun {
        records = List.copyOf(records);
        gaps = List.copyOf(gaps);
    }

    /** Records of which nobody knows whether there were more: a single one, or those of a run that kept no list. */
    public static WholeRun of(List<RunRecord> records) {
        return new WholeRun(records, records.size(), List.of());
    }

    /** Held against the run's list. */
    public static WholeRun of(RunSession session, List<RunRecord> found) {
        List<RunRecord> records =
                found.stream().sorted(Comparator.comparingInt(session::place)).toList();
        Map<Integer, List<RunRecord>> placed = records.stream().collect(Collectors.groupingBy(session::place));
        int latest = records.stream()
                .mapToInt(session::place)
                .filter(place -> place < session.sequences().size())
                .max()
                .orElse(-1);
        List<Gap> gaps = new ArrayList<>();
        for (int i = 0; i < session.sequences().size(); i++) {
            RunSession.Due due = session.sequences().get(i);
            if (!placed.containsKey(i)) {
                gaps.add(absent(session, due, i < latest));
            } else if (!placed.get(i).stream().allMatch(record -> session.made(due, record))) {
                gaps.add(Gap.exchanged(due));
            }
        }
        placed.getOrDefault(session.sequences().size(), List.of()).forEach(record -> gaps.add(Gap.foreign(record)));
        return new WholeRun(records, session.sequences().size(), gaps);
    }

    /**
     * Held against the list in the run's folder. A list that is not as it was written is an error, and so is one that
     * is gone: with it and the record of what failed the rest would pass.
     */
    public static WholeRun in(Path folder, List<RunRecord> records) {
        if (!RunSession.isIn(folder)) {
            boolean ofRuns = records.stream()
                    .anyMatch(record -> !record.summary().run().session().isEmpty());
            return ofRuns
                    ? of(records)
                            .and(Gap.list(folder.resolve(RunSession.FILE) + " is missing; put it back, or name"
                                    + " each record by itself"))
                    : of(records);
        }
        try {
            RunSession session = RunSession.read(folder);
            WholeRun run = of(session, records);
            return session.unchanged()
                    ? run
                    : run.and(Gap.list(folder.resolve(RunSession.FILE) + " was changed after it was written"));
        } catch (UnreadableRecord e) {
            return of(records).and(Gap.list(e.getMessage()));
        }
    }

    /** The same with its records told in other words, for a reader; no evidence comes of it. */
    public WholeRun told(UnaryOperator<Finding> findings, UnaryOperator<String> words) {
        return new WholeRun(
                records.stream().map(record -> record.told(findings, words)).toList(), due, gaps);
    }

    /** The greatest verdict of all, an error where a record is missed. */
    public Verdict verdict() {
        return Verdict.greatest(records, RunRecord::verdict).or(Verdict.greatest(gaps, Gap::verdict));
    }

    /** What is an error because it is not there, or not as it was. */
    public List<Gap> missed() {
        return gaps(Verdict.ERROR);
    }

    /** What an error kept from being run. */
    public List<Gap> notRun() {
        return gaps(Verdict.NONE);
    }

    private List<Gap> gaps(Verdict verdict) {
        return gaps.stream().filter(gap -> gap.verdict() == verdict).toList();
    }

    private WholeRun and(Gap gap) {
        List<Gap> more = new ArrayList<>(List.of(gap));
        more.addAll(gaps);
        return new WholeRun(records, due, more);
    }

    private static Gap absent(RunSession session, RunSession.Due due, boolean laterOnesAreThere) {
        if (due.seal().isPresent()) {
            return Gap.missing(due);
        }
        if (session.ended().isPresent()) {
            return Gap.notRun(due, session);
        }
        return laterOnesAreThere ? Gap.missing(due) : Gap.brokenOff(due);
    }
}
