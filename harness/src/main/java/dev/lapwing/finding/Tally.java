package dev.lapwing.finding;

import java.util.Collection;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/**
 * What findings come to.
 *
 * @param verdict the greatest of theirs; {@link Verdict#NONE} of nothing
 * @param counts  how many there are of each verdict, every verdict named
 */
public record Tally(Verdict verdict, Map<Verdict, Integer> counts) {

    public Tally {
        counts = Map.copyOf(counts);
    }

    public static Tally of(Collection<Finding> findings) {
        Map<Verdict, Integer> counts = new EnumMap<>(Verdict.class);
        List.of(Verdict.values()).forEach(verdict -> counts.put(verdict, 0));
        findings.forEach(finding -> counts.merge(finding.verdict(), 1, Integer::sum));
        return new Tally(
                Verdict.greatest(findings.stream().map(Finding::verdict).toList()), counts);
    }

    public int count(Verdict of) {
        return counts.getOrDefault(of, 0);
    }
}
