package dev.lapwing.cli;

import dev.lapwing.evidence.RunRecord;
import dev.lapwing.evidence.UnreadableRecord;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;

/** The records that a user means by a folder: one record, or all records of one run. */
final class Records {
    private Records() {}

    static List<RunRecord> in(Path folder) throws UnreadableRecord {
        if (Files.isRegularFile(folder.resolve("run.json")) || !Files.isDirectory(folder)) {
            return List.of(RunRecord.open(folder));
        }
        List<RunRecord> records = new ArrayList<>();
        for (Path inside : below(folder)) {
            records.add(RunRecord.open(inside));
        }
        if (records.isEmpty()) {
            throw new UnreadableRecord(folder + ": holds no run record; a run record is a folder with a run.json");
        }
        return records;
    }

    private static List<Path> below(Path folder) throws UnreadableRecord {
        try (Stream<Path> inside = Files.list(folder)) {
            return inside.filter(path -> Files.isRegularFile(path.resolve("run.json")))
                    .sorted()
                    .toList();
        } catch (IOException e) {
            throw new UnreadableRecord(folder + ": cannot be read: " + e.getMessage(), e);
        }
    }
}
