package dev.lapwing.evidence;

import com.fasterxml.jackson.core.type.TypeReference;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.stream.Collectors;

/**
 * What {@code session.json} in the folder of a whole run says: which sequences it was to hold, in their order. Written
 * before the first of them begins and again at the end, so that a record that is missing later is missed.
 *
 * @param schema    version of the format
 * @param session   the run's id, which each of its records names
 * @param runClass  what the run was to be good for; a record says dry where its bench turned out to be simulated
 * @param begun     wall-clock time
 * @param unit      title of the unit
 * @param bench     name of the bench
 * @param seed      of a bench that is simulated in the harness
 * @param sequences all that were to be run
 * @param ended     wall-clock time; empty while the run is on, or if it broke off
 * @param seal      SHA-256 of this file's compact form with an empty seal
 */
public record RunSession(
        int schema,
        String session,
        RunClass runClass,
        Instant begun,
        String unit,
        String bench,
        OptionalLong seed,
        List<Due> sequences,
        Optional<Instant> ended,
        String seal) {

    static final String FILE = "session.json";
    private static final int SCHEMA = 1;

    /**
     * A sequence that was to be run.
     *
     * @param sequence its name
     * @param title    its title
     * @param file     that it came from, as the user named it
     * @param record   folder of its record, beside {@code session.json}
     * @param seal     of the finished {@code run.json} in that folder; empty before the end, and if it was not run
     */
    public record Due(String sequence, String title, String file, String record, Optional<String> seal) {
        public Due {
            Objects.requireNonNull(record, "the folder of a record");
        }
    }

    public RunSession {
        Objects.requireNonNull(seal, "the seal of a list");
        sequences = List.copyOf(sequences);
    }

    /** A run of which nothing was done yet. */
    public static RunSession begun(
            String session,
            RunClass runClass,
            Instant begun,
            String unit,
            String bench,
            OptionalLong seed,
            List<Due> sequences) {
        return new RunSession(SCHEMA, session, runClass, begun, unit, bench, seed, sequences, Optional.empty(), "")
                .sealed();
    }

    /** The same run once it is over: what has no record among these was not run. */
    public RunSession ended(Instant end, List<RunRecord> records) {
        Map<String, String> seals = records.stream()
                .map(RunRecord::summary)
                .collect(Collectors.toMap(summary -> summary.run().id(), RunSummary::seal));
        List<Due> told = sequences.stream()
                .map(due -> new Due(
                        due.sequence, due.title, due.file, due.record, Optional.ofNullable(seals.get(due.record))))
                .toList();
        return with(told, Optional.of(end), "").sealed();
    }

    /** Puts it into the folder of the run whole, or not at all, in place of what was there before. */
    public void write(Path folder) {
        try {
            Files.createDirectories(folder);
            new DiskStore(folder).put(FILE, RecordJson.file(RecordJson.tree(this)));
        } catch (IOException e) {
            throw new RecordFailure(
                    folder + ": the run record cannot be written: " + DiskReason.of(e)
                            + "; name another place with '--records DIR'",
                    e);
        }
    }

    static boolean isIn(Path folder) {
        return Files.exists(folder.resolve(FILE));
    }

    static RunSession read(Path folder) throws UnreadableRecord {
        String name = folder.resolve(FILE).toString();
        try {
            byte[] file = new DiskStore(folder).get(FILE);
            int schema = RecordJson.parse(name, file).path("schema").asInt();
            if (schema != SCHEMA) {
                throw new UnreadableRecord(
                        name + ": a list of format " + schema + "; this harness reads format " + SCHEMA);
            }
            return RecordJson.read(name, file, new TypeReference<>() {});
        } catch (IOException e) {
            throw new UnreadableRecord(name + ": cannot be read: " + DiskReason.of(e), e);
        }
    }

    /** False if anything in it was changed after it was written. */
    boolean unchanged() {
        return seal.equals(RecordJson.seal(this));
    }

    /** Position of a record's sequence in the run; after all others if it is none of them. */
    int place(RunRecord record) {
        for (int i = 0; i < sequences.size(); i++) {
            if (sequences.get(i).record.equals(record.summary().run().id())) {
                return i;
            }
        }
        return sequences.size();
    }

    /** Whether that record is what this run made of a sequence. */
    boolean made(Due due, RunRecord record) {
        RunSummary summary = record.summary();
        return summary.run().session().equals(session)
                && due.seal.map(summary.seal()::equals).orElse(ended.isEmpty());
    }

    /** The sequence that ended the run before all were run. */
    Optional<Due> last() {
        return sequences.stream().filter(due -> due.seal.isPresent()).reduce((before, after) -> after);
    }

    private RunSession sealed() {
        return with(sequences, ended, RecordJson.seal(this));
    }

    private RunSession with(List<Due> told, Optional<Instant> end, String other) {
        return new RunSession(schema, session, runClass, begun, unit, bench, seed, told, end, other);
    }
}
