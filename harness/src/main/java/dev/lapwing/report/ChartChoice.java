package dev.lapwing.report;

import static java.nio.charset.StandardCharsets.UTF_8;

import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Verdict;
import dev.lapwing.quantity.PressureDisplay;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Which charts a report holds. In the order of what they say: overviews, close-ups of what did not pass, close-ups of
 * passes by how near to their limit they were, each as long as there is room.
 *
 * @param overviews one for each record; empty markup where there was no room
 * @param closeUps  by finding, for each record
 * @param remark    what was left out; empty if nothing was
 */
record ChartChoice(List<Markup> overviews, List<Map<Finding, Markup>> closeUps, String remark) {
    /** Room kept for text: bytes a finding, and bytes for the rest of the page. */
    private static final int BYTES_A_FINDING = 2_500;

    private static final int BYTES_OF_TEXT = 120_000;
    /** Passes drawn close up in each sequence at most, so that a page stays readable. */
    private static final int PASSES = 3;

    private record Candidate(int record, Finding finding, double nearness) {}

    static ChartChoice within(int bytes, List<RunView> views, PressureDisplay display) {
        long room = bytes - BYTES_OF_TEXT;
        List<Map<Finding, Markup>> closeUps = new ArrayList<>();
        List<Candidate> candidates = new ArrayList<>();
        for (int i = 0; i < views.size(); i++) {
            room -= (long) BYTES_A_FINDING * views.get(i).findings().size()
                    + 200L * views.get(i).course().executed().size();
            closeUps.add(new HashMap<>());
            candidates.addAll(candidates(i, views.get(i).findings()));
        }
        int left = 0;
        List<Markup> overviews = new ArrayList<>();
        for (RunView view : views) {
            Markup overview = Overview.of(view, display);
            boolean fits = size(overview) <= room;
            room -= fits ? size(overview) : 0;
            left += fits ? 0 : 1;
            overviews.add(fits ? overview : new Markup());
        }
        candidates.sort(Comparator.comparingDouble(Candidate::nearness));
        for (Candidate one : candidates) {
            Optional<Markup> drawn = CloseUp.of(views.get(one.record), display, one.finding);
            if (drawn.isEmpty()) {
                continue;
            }
            if (size(drawn.get()) <= room) {
                room -= size(drawn.get());
                closeUps.get(one.record).put(one.finding, drawn.get());
            } else {
                left++;
            }
        }
        String remark = left == 0
                ? ""
                : "To keep this page small, " + Sentences.count(left, "chart")
                        + " of the least telling were left out; the records hold everything.";
        return new ChartChoice(overviews, closeUps, remark);
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

    private static long size(Markup markup) {
        return markup.toString().getBytes(UTF_8).length;
    }
}
