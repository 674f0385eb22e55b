package dev.lapwing.report;

import static java.nio.charset.StandardCharsets.UTF_8;

import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Verdict;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Supplier;

/**
 * Which charts a report holds. In the order of what they say: overviews, close-ups of what did not pass, close-ups of
 * passes by how near to their limit they were, each as long as there is room.
 *
 * @param overviews one for each record; empty markup where there was no room
 * @param closeUps  by finding, for each record
 * @param left      what was left out, in words; empty if nothing was
 */
record ChartChoice(List<Markup> overviews, List<Map<Finding, Markup>> closeUps, String left) {
    /** What the page puts around a chart, in bytes. */
    private static final int FRAME = 700;

    /** Passes drawn close up in each sequence at most, so that a page stays readable. */
    private static final int PASSES = 3;

    private record Candidate(int record, Finding finding, double nearness) {}

    static ChartChoice none(int records) {
        return new ChartChoice(Collections.nCopies(records, new Markup()), Collections.nCopies(records, Map.of()), "");
    }

    /** @param bytes room for charts */
    static ChartChoice within(long bytes, List<RunView> views) {
        Room room = new Room(bytes);
        List<Markup> overviews = new ArrayList<>();
        List<Map<Finding, Markup>> closeUps = new ArrayList<>();
        List<Candidate> candidates = new ArrayList<>();
        for (int i = 0; i < views.size(); i++) {
            RunView view = views.get(i);
            overviews.add(room.take(() -> Overview.of(view)).orElse(new Markup()));
            closeUps.add(new HashMap<>());
            candidates.addAll(candidates(i, view.findings()));
        }
        candidates.sort(Comparator.comparingDouble(Candidate::nearness));
        for (Candidate one : candidates) {
            RunView view = views.get(one.record);
            if (CloseUp.worthwhile(view, one.finding)) {
                room.take(() -> CloseUp.of(view, one.finding))
                        .ifPresent(drawn -> closeUps.get(one.record).put(one.finding, drawn));
            }
        }
        return new ChartChoice(
                overviews,
                closeUps,
                room.refused == 0 ? "" : Sentences.count(room.refused, "chart") + " that say least");
    }

    /** Room for charts; once it is used up, no more are drawn. */
    private static final class Room {
        private long left;
        private int refused;

        Room(long bytes) {
            left = bytes;
        }

        Optional<Markup> take(Supplier<Markup> chart) {
            if (left > 0) {
                Markup drawn = chart.get();
                long size = drawn.toString().getBytes(UTF_8).length + FRAME;
                if (size <= left) {
                    left -= size;
                    return Optional.of(drawn);
                }
                left = 0;
            }
            refused++;
            return Optional.empty();
        }
    }

    /** What did not pass, and the passes nearest to their limits. */
    private static List<Candidate> candidates(int record, List<Finding> findings) {
        List<Candidate> all = findings.stream()
                .filter(finding -> finding.verdict() != Verdict.NONE)
                .map(finding -> new Candidate(record, finding, nearness(finding)))
                .sorted(Comparator.comparingDouble(Candidate::nearness))
                .toList();
        long hot = all.stream().filter(c -> c.finding.verdict() != Verdict.PASS).count();
        return all.subList(0, (int) Math.min(all.size(), hot + PASSES));
    }

    /** Below 0 for what did not pass; else the margin in units of U, least first. */
    private static double nearness(Finding finding) {
        if (finding.verdict() != Verdict.PASS) {
            return -finding.verdict().ordinal();
        }
        double expanded = finding.measured().map(m -> m.expanded()).orElse(0.0);
        return expanded == 0 ? Double.MAX_VALUE : finding.margin().orElse(Double.MAX_VALUE) / expanded;
    }
}
