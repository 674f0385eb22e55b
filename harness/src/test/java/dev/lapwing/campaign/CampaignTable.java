package dev.lapwing.campaign;

import dev.lapwing.campaign.CampaignRun.Came;
import dev.lapwing.finding.Verdict;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/** What came of a campaign, by kind of fault and link. */
final class CampaignTable {
    private static final String LINE = "%-30s %8s %8s %8s %8s %13s %15s%n";

    private final Map<Kind.Over, Row> rows = new TreeMap<>();
    private final List<String> broken = new ArrayList<>();
    private final List<String> notes = new ArrayList<>();

    private static final class Row {
        private int injected;
        private int survived;
        private int stopped;
        private int failed;
        private int falsePasses;
        private int unsafe;

        private void add(Row other) {
            injected += other.injected;
            survived += other.survived;
            stopped += other.stopped;
            failed += other.failed;
            falsePasses += other.falsePasses;
            unsafe += other.unsafe;
        }

        private String text(String kind) {
            return String.format(Locale.ROOT, LINE, kind, injected, survived, stopped, failed, falsePasses, unsafe);
        }
    }

    void add(Came came, List<String> falsePasses) {
        Row row = rows.computeIfAbsent(came.fault().over(), over -> new Row());
        row.injected++;
        row.survived += came.verdict() == Verdict.PASS ? 1 : 0;
        row.stopped += came.verdict() == Verdict.ERROR || came.verdict() == Verdict.INCONCLUSIVE ? 1 : 0;
        row.failed += came.verdict() == Verdict.FAIL ? 1 : 0;
        row.falsePasses += falsePasses.isEmpty() ? 0 : 1;
        row.unsafe += came.safe() ? 0 : 1;
        String run = "seed " + came.seed() + ", " + came.fault() + ": ";
        falsePasses.forEach(line -> broken.add(run + line));
        came.broken().forEach(line -> broken.add(run + line));
        if (came.verdict() != Verdict.PASS) {
            notes.add(run + came.verdict().text() + " " + came.troubles());
            came.findings().stream()
                    .filter(finding -> finding.verdict() == came.verdict())
                    .findFirst()
                    .ifPresent(finding -> notes.add("    " + finding.id() + ": " + finding.because()));
        }
    }

    List<String> broken() {
        return broken;
    }

    String text() {
        StringBuilder text = new StringBuilder(String.format(
                Locale.ROOT,
                LINE,
                "link and fault",
                "injected",
                "survived",
                "stopped",
                "failed",
                "false passes",
                "unsafe endings"));
        Row sum = new Row();
        rows.forEach((over, row) -> {
            text.append(row.text(over.toString()));
            sum.add(row);
        });
        text.append(sum.text("all"));
        broken.forEach(line -> text.append("broken: ").append(line).append('\n'));
        notes.forEach(line -> text.append(line).append('\n'));
        return text.toString();
    }
}
