package dev.lapwing.cli;

import dev.lapwing.evidence.DiskReason;
import dev.lapwing.evidence.RunRecord;
import dev.lapwing.evidence.UnreadableRecord;
import dev.lapwing.evidence.WholeRun;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** The records that a user means by a folder: one record, or all records of one run. */
final class Records {
    private static final List<String> FILES = List.of("run.json", "plan.json", "log.bin", "findings.json");

    private Records() {}

    static WholeRun in(Path folder) throws UnreadableRecord {
        if (Files.isRegularFile(folder.resolve("run.json")) || !Files.isDirectory(folder)) {
            return WholeRun.of(List.of(RunRecord.open(folder)));
        }
        List<RunRecord> records = new ArrayList<>();
        for (Path inside : below(folder)) {
            records.add(RunRecord.open(inside));
        }
        WholeRun run = WholeRun.in(folder, records);
        if (records.isEmpty()) {
            throw new UnreadableRecord(folder + ": holds no run record" + lacking(run));
        }
        return run;
    }

    private static String lacking(WholeRun run) {
        return run.gaps().isEmpty()
                ? "; a run record is a folder with a run.json"
                : run.gaps().stream()
                        .map(gap -> gap.sequence() + ": " + gap.state())
                        .collect(Collectors.joining("; ", " (", ")"));
    }

    /** A folder that lost one file of a record is one still: what it had to say is missed, and not passed over. */
    private static List<Path> below(Path folder) throws UnreadableRecord {
        try (Stream<Path> inside = Files.list(folder)) {
            return inside.filter(Records::holdsSomeOfOne).sorted().toList();
        } catch (IOException e) {
            throw new UnreadableRecord(folder + ": cannot be read: " + DiskReason.of(e), e);
        }
    }

    private static boolean holdsSomeOfOne(Path folder) {
        return FILES.stream().anyMatch(file -> Files.isRegularFile(folder.resolve(file)));
    }
}
