package dev.lapwing.evidence;

import com.fasterxml.jackson.core.type.TypeReference;
import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Verdict;
import dev.lapwing.measure.Recording;
import dev.lapwing.measure.Sampled;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Course;
import dev.lapwing.plan.Plan;
import dev.lapwing.signal.Edges;
import dev.lapwing.signal.Trace;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.UnaryOperator;

/**
 * A run record, read back. Findings are a pure function of it: judging {@link #plan()}, {@link #recording()} and
 * {@link #course()} again gives {@link #findings()} again, unless the judge or a figure has changed.
 *
 * <p>A record that was cut short at any byte still opens; {@link #integrity()} then says so, and the course ends with a
 * trouble of the bench.
 */
public final class RunRecord {
    private final RecordStore store;
    private final RunSummary summary;
    private final Plan plan;
    private final List<Finding> findings;
    private final Replayed replayed;
    private final Integrity integrity;
    private final UnaryOperator<String> words;

    /**
     * Something that was said in a run.
     *
     * @param atUs bench time in µs
     * @param text in words
     */
    public record Remark(long atUs, String text) {}

    private RunRecord(RecordStore store) throws IOException, UnreadableRecord {
        this.store = store;
        words = UnaryOperator.identity();
        byte[] summaryFile = store.get(RecordStore.SUMMARY);
        checkSchema(summaryFile);
        summary = RecordJson.read(path(RecordStore.SUMMARY), summaryFile, new TypeReference<>() {});
        byte[] planFile = store.get(RecordStore.PLAN);
        plan = RecordJson.read(path(RecordStore.PLAN), planFile, new TypeReference<>() {});
        findings = summary.ended().isPresent()
                ? RecordJson.read(path(RecordStore.FINDINGS), store.get(RecordStore.FINDINGS), new TypeReference<>() {})
                : List.of();
        LogBytes log = store.has(RecordStore.LOG) ? store.logBytes() : LogBytes.of(new byte[0]);
        StoredCounts counts = new StoredCounts(log);
        replayed = replayed(counts);
        LogReader reader = new LogReader(log, Optional.of(counts));
        Integrity found = reader.replay(replayed).or(files());
        String planned = HexFormat.of().formatHex(reader.planSha256());
        integrity = planned.isEmpty() || planned.equals(Sha256.of(planFile))
                ? found
                : found.or(damaged("the log was not written for this plan"));
    }

    /** A plan that was changed may name points that its bench has not. */
    private Replayed replayed(StoredCounts counts) throws UnreadableRecord {
        try {
            return new Replayed(plan.bench(), counts);
        } catch (IllegalArgumentException e) {
            throw new UnreadableRecord(path(RecordStore.PLAN) + ": makes no sense: " + e.getMessage(), e);
        }
    }

    private RunRecord(RunRecord from, RunSummary summary, List<Finding> findings, UnaryOperator<String> words) {
        store = from.store;
        plan = from.plan;
        replayed = from.replayed;
        integrity = from.integrity;
        this.summary = summary;
        this.findings = List.copyOf(findings);
        this.words = words;
    }

    /** The same record once it is finished. */
    RunRecord with(RunSummary finished, List<Finding> judged) {
        return new RunRecord(this, finished, judged, words);
    }

    /** The same record told in other words, findings and all the rest, for a reader; no evidence comes of it. */
    public RunRecord told(UnaryOperator<Finding> findingsOtherwise, UnaryOperator<String> otherwise) {
        return new RunRecord(
                this,
                summary,
                findings.stream().map(findingsOtherwise).toList(),
                text -> otherwise.apply(words.apply(text)));
    }

    /** Opens the record in a directory. */
    public static RunRecord open(Path directory) throws UnreadableRecord {
        if (!Files.isDirectory(directory)) {
            throw new UnreadableRecord(directory + ": no such folder; a run record is a folder with a run.json");
        }
        return of(new DiskStore(directory));
    }

    static RunRecord of(RecordStore store) throws UnreadableRecord {
        for (String file : List.of(RecordStore.SUMMARY, RecordStore.PLAN)) {
            if (!store.has(file)) {
                throw new UnreadableRecord(store.name() + ": not a run record: it has no " + file);
            }
        }
        try {
            return new RunRecord(store);
        } catch (IOException e) {
            throw new UnreadableRecord(store.name() + ": cannot be read: " + DiskReason.of(e), e);
        }
    }

    /** Where it is, for people. */
    public String name() {
        return store.name();
    }

    public RunSummary summary() {
        return summary;
    }

    public Plan plan() {
        return plan;
    }

    /** As judged when it was made; empty if it never was. */
    public List<Finding> findings() {
        return findings;
    }

    /** Greatest verdict of the findings; error if they are missing or the record is not whole. */
    public Verdict verdict() {
        return integrity.state() == Integrity.State.WHOLE ? summary.verdict().orElse(Verdict.ERROR) : Verdict.ERROR;
    }

    public Integrity integrity() {
        return integrity;
    }

    public Course course() {
        return replayed.course(integrity, summary.run().day()).told(words);
    }

    /** What the operator and the bench had to say, in the order in which it was said. */
    public List<Remark> remarks() {
        return replayed.remarks().stream()
                .map(remark -> new Remark(remark.atUs, words.apply(remark.text)))
                .toList();
    }

    /** Everything that the bench reported, calibrated by the plan's bench file; what the judge reads. */
    public Recording recording() {
        return replayed.recording();
    }

    /** Signals of which there are samples, in the order of the bench file. */
    public Map<Signal, Trace> traces() {
        Map<Signal, Trace> traces = new LinkedHashMap<>();
        for (Signal signal : recording().signals()) {
            recording()
                    .sampled(signal)
                    .map(Sampled::trace)
                    .filter(trace -> trace.size() > 0)
                    .ifPresent(trace -> traces.put(signal, trace));
        }
        return traces;
    }

    /** Wires of which the level is known, in the order of the bench file. */
    public Map<Signal, Edges> edges() {
        Map<Signal, Edges> edges = new LinkedHashMap<>();
        for (Signal signal : recording().signals()) {
            if (signal instanceof Signal.Wire wire) {
                recording().switched(wire).ifPresent(switched -> edges.put(signal, switched.edges()));
            }
        }
        return edges;
    }

    /** Earliest bench time that the record tells of, in µs. */
    public long firstUs() {
        return replayed.firstUs();
    }

    /** Latest bench time that the record tells of, in µs. */
    public long lastUs() {
        return replayed.lastUs();
    }

    /** Number of samples in the log. */
    public long samples() {
        return replayed.samples();
    }

    /** Checksum of this record's evidence with these findings, computed anew. */
    public String evidenceSha256(List<Finding> judged) throws UnreadableRecord {
        try {
            EvidenceDigest digest = new EvidenceDigest();
            new LogReader(store.logBytes()).replay(digest);
            return digest.sha256(
                    RecordJson.parse(path(RecordStore.PLAN), store.get(RecordStore.PLAN)), RecordJson.tree(judged));
        } catch (IOException e) {
            throw new UnreadableRecord(store.name() + ": cannot be read: " + DiskReason.of(e), e);
        }
    }

    private void checkSchema(byte[] summaryFile) throws UnreadableRecord {
        int schema = RecordJson.parse(path(RecordStore.SUMMARY), summaryFile)
                .path("schema")
                .asInt();
        if (schema != RunSummary.SCHEMA) {
            throw new UnreadableRecord(path(RecordStore.SUMMARY) + ": a record of format " + schema
                    + "; this harness reads format " + RunSummary.SCHEMA);
        }
    }

    private Integrity files() throws IOException {
        if (!summary.unchanged()) {
            return damaged(RecordStore.SUMMARY + " was changed after it was written");
        }
        for (Map.Entry<String, String> file : summary.sha256().entrySet()) {
            if (!store.has(file.getKey())) {
                return damaged(file.getKey() + " is missing");
            }
            if (!store.sha256(file.getKey()).equals(file.getValue())) {
                return damaged(file.getKey() + " was changed after it was written");
            }
        }
        return Integrity.WHOLE;
    }

    private String path(String file) {
        return store.name() + "/" + file;
    }

    private static Integrity damaged(String why) {
        return new Integrity(Integrity.State.DAMAGED, why);
    }
}
