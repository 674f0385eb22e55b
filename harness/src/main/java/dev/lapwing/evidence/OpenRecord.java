package dev.lapwing.evidence;

import dev.lapwing.finding.Finding;
import dev.lapwing.plan.Plan;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.concurrent.Executor;

/**
 * The record of a run that is being made: {@code plan.json} and an unfinished {@code run.json} at once, {@code log.bin}
 * while the run is on, {@code findings.json} and the finished {@code run.json} at its end. For one thread.
 *
 * <p>Whatever happens in between, {@link RunRecord} reads what there is. Every method throws {@link RecordFailure} if
 * the record cannot be written.
 */
public final class OpenRecord implements AutoCloseable {
    private final RecordStore store;
    private final Optional<Path> directory;
    private final LogWriter log;
    private final RunSummary summary;
    private boolean closed;
    private Optional<RunRecord> readBack = Optional.empty();

    private OpenRecord(RecordStore store, Optional<Path> directory, RunIdentity run, Plan plan, Executor disk) {
        this.store = store;
        this.directory = directory;
        byte[] planFile = RecordJson.file(RecordJson.tree(plan));
        String planSha256 = Sha256.of(planFile);
        summary = RunSummary.open(run, plan, planSha256);
        put(RecordStore.PLAN, planFile);
        put(RecordStore.SUMMARY, RecordJson.file(RecordJson.tree(summary)));
        try {
            LogSink sink = new LaterSink(store.log(), disk);
            log = new LogWriter(
                    new FrameWriter(sink, store.name()), HexFormat.of().parseHex(planSha256));
        } catch (IOException e) {
            throw unwritable(e);
        }
    }

    /** Begins a record whose writer waits for the disk itself. */
    public static OpenRecord create(Path records, RunIdentity run, Plan plan) {
        return create(records, run, plan, Runnable::run);
    }

    /**
     * Begins a record in the directory {@code records/<run id>}, which must not be there yet.
     *
     * @param disk waits for the disk while the run goes on: does what it is given one after the other, in that order
     */
    public static OpenRecord create(Path records, RunIdentity run, Plan plan, Executor disk) {
        Path directory = records.resolve(run.id());
        try {
            return new OpenRecord(DiskStore.create(directory), Optional.of(directory), run, plan, disk);
        } catch (IOException e) {
            throw new RecordFailure(
                    directory + ": the run record cannot be begun: " + DiskReason.of(e)
                            + "; name another place with '--records DIR'",
                    e);
        }
    }

    /** Begins a record in memory, for runs of which nobody keeps the record. */
    public static OpenRecord inMemory(RunIdentity run, Plan plan) {
        return new OpenRecord(new MemoryStore(), Optional.empty(), run, plan, Runnable::run);
    }

    /** Where it is; empty for a record in memory. */
    public Optional<Path> directory() {
        return directory;
    }

    /** The log, for the runner to append to. */
    public RunLog log() {
        return log;
    }

    /** Closes the log and reads back what it holds, for the judge: what is judged is what was stored. */
    public RunRecord read() {
        close();
        try {
            RunRecord record = readBack.isPresent() ? readBack.get() : RunRecord.of(store);
            readBack = Optional.of(record);
            return record;
        } catch (UnreadableRecord e) {
            throw new RecordFailure(store.name() + ": the run record does not read back: " + e.getMessage(), e);
        }
    }

    /**
     * Adds the findings and the summary; nothing is added to a record after that.
     *
     * @param ended wall-clock time
     * @return the finished record
     */
    public RunRecord finish(List<Finding> findings, Instant ended) {
        close();
        put(RecordStore.FINDINGS, RecordJson.file(RecordJson.tree(findings)));
        RunRecord record = read();
        try {
            Map<String, String> files = new TreeMap<>(summary.sha256());
            files.put(RecordStore.LOG, store.sha256(RecordStore.LOG));
            files.put(RecordStore.FINDINGS, store.sha256(RecordStore.FINDINGS));
            RunSummary finished = summary.finished(
                    ended,
                    findings,
                    new RunSummary.Extent((record.lastUs() - record.firstUs()) * 1e-6, record.samples()),
                    files,
                    record.evidenceSha256(findings));
            put(RecordStore.SUMMARY, RecordJson.file(RecordJson.tree(finished)));
            return record.with(finished, findings);
        } catch (IOException e) {
            throw unwritable(e);
        } catch (UnreadableRecord e) {
            throw new RecordFailure(store.name() + ": the run record does not read back: " + e.getMessage(), e);
        }
    }

    /** Closes the log; a run that has not told its end then reads as cut short. */
    @Override
    public void close() {
        if (!closed) {
            closed = true;
            log.close();
        }
    }

    private void put(String file, byte[] bytes) {
        try {
            store.put(file, bytes);
        } catch (IOException e) {
            throw unwritable(e);
        }
    }

    private RecordFailure unwritable(IOException e) {
        return new RecordFailure(store.name() + ": the run record cannot be written: " + DiskReason.of(e), e);
    }
}
