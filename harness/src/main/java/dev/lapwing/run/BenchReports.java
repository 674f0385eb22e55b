package dev.lapwing.run;

import dev.lapwing.bench.BenchListener;
import dev.lapwing.bench.SampleBlock;
import dev.lapwing.evidence.RunLog;
import dev.lapwing.measure.GrowingRecording;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import java.util.TreeMap;

/** Passes what the bench reports on to the log and the recording, and keeps what the runner itself must know. */
final class BenchReports implements BenchListener {
    /** Faults that tell of readings that are missing or no good, and not of a bench that is broken. */
    private static final Set<String> OF_READINGS = Set.of("over-range", "overrun", "not-readable");

    private final RunLog log;
    private final GrowingRecording recording;
    private final Map<String, WireLevel> levels;
    private Optional<String> safe = Optional.empty();
    private Optional<String> fault = Optional.empty();
    /** Bench time at which each command was executed, by its id. */
    private final Map<Long, Long> executed = new HashMap<>();

    /** @param levels newest level of each digital point, kept from run to run of one bench */
    BenchReports(RunLog log, GrowingRecording recording, Map<String, WireLevel> levels) {
        this.log = log;
        this.recording = recording;
        this.levels = levels;
    }

    /** Tells the levels that are known from an earlier run as the levels at a bench time, and which are in doubt. */
    void tellLevels(long atUs) {
        new TreeMap<>(levels).forEach((point, level) -> {
            edge(point, atUs, level.on());
            if (level.doubted()) {
                // Until it is told next.
                lost(point, atUs, atUs + 1);
            }
        });
    }

    @Override
    public void samples(SampleBlock block) {
        log.samples(block);
        recording.samples(block);
    }

    @Override
    public void edge(String point, long atUs, boolean level) {
        levels.merge(point, WireLevel.told(level), (before, now) -> before.then(atUs, level));
        log.edge(point, atUs, level);
        recording.edge(point, atUs, level);
    }

    @Override
    public void executed(long id, long dueUs, long atUs) {
        log.executed(id, dueUs, atUs);
        executed.put(id, atUs);
    }

    @Override
    public void safe(long atUs, String why) {
        safe = Optional.of(why);
        log.safe(atUs, why);
    }

    @Override
    public void fault(long atUs, String point, String why) {
        log.fault(atUs, point, why);
        if (OF_READINGS.contains(why)) {
            if (!point.isEmpty()) {
                // A wire that cannot be read has no hole in its samples by which the judge would see it.
                lost(point, atUs, atUs);
            }
        } else if (fault.isEmpty()) {
            fault = Optional.of(point.isEmpty() ? why : why + " at point " + point);
        }
    }

    @Override
    public void lost(String streamOrPoint, long fromUs, long toUs) {
        levels.computeIfPresent(streamOrPoint, (point, level) -> level.lost(toUs));
        log.lost(streamOrPoint, fromUs, toUs);
        recording.lost(streamOrPoint, fromUs, toUs);
    }

    /** Why the bench became safe, if it has. */
    Optional<String> safe() {
        return safe;
    }

    /** What the bench said is not right with itself, if it did. */
    Optional<String> fault() {
        return fault;
    }

    /** Bench time at which a command was executed, if that was told. */
    OptionalLong executed(long id) {
        Long atUs = executed.get(id);
        return atUs == null ? OptionalLong.empty() : OptionalLong.of(atUs);
    }
}
