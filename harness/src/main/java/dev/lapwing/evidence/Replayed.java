package dev.lapwing.evidence;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.SampleBlock;
import dev.lapwing.measure.CountStore;
import dev.lapwing.measure.GrowingRecording;
import dev.lapwing.measure.Recording;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Course;
import dev.lapwing.signal.Window;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/** Gathers what happened in a run, and what was measured, from its log. */
final class Replayed implements RunLog {
    private final GrowingRecording recording;
    private final Map<Long, Course.Executed> commands = new LinkedHashMap<>();
    private final Map<String, Course.ExpectationWindow> windows = new LinkedHashMap<>();
    private final List<Course.Trouble> troubles = new ArrayList<>();
    private final List<RunRecord.Remark> remarks = new ArrayList<>();
    private Optional<Course.Ending> ending = Optional.empty();
    /** The bench was made safe, or the run ended before that. */
    private long endUs = Long.MAX_VALUE;

    private long firstUs = Long.MAX_VALUE;
    private long lastUs;
    private long samples;

    Replayed(BenchFile bench, CountStore counts) {
        recording = new GrowingRecording(bench, counts);
    }

    /** The course of a run of that day; of a log that was cut or damaged, it says so as a trouble of the bench. */
    Course course(Integrity integrity, LocalDate day) {
        List<Course.Trouble> all = new ArrayList<>(troubles);
        if (integrity.state() != Integrity.State.WHOLE) {
            all.add(new Course.Trouble(Course.Trouble.Kind.BENCH, lastUs, integrity.why()));
        }
        List<Course.ExpectationWindow> closed = windows.values().stream()
                .map(window -> window.closedUs() == Long.MAX_VALUE ? cutShort(window) : window)
                .toList();
        return new Course(
                List.copyOf(commands.values()),
                closed,
                lost(),
                List.copyOf(all),
                integrity.state() == Integrity.State.WHOLE
                        ? ending.orElse(Course.Ending.CUT_SHORT)
                        : Course.Ending.CUT_SHORT,
                endUs,
                day);
    }

    private Map<String, List<Window>> lost() {
        Map<String, List<Window>> lost = new TreeMap<>();
        for (Signal signal : recording.signals()) {
            if (!recording.lost(signal).isEmpty()) {
                lost.put(signal.key(), recording.lost(signal));
            }
        }
        return lost;
    }

    Recording recording() {
        return recording;
    }

    /** Number of samples, of all points. */
    long samples() {
        return samples;
    }

    List<RunRecord.Remark> remarks() {
        return List.copyOf(remarks);
    }

    /** Earliest bench time that the log tells of, in µs: a bench may have been on for days. */
    long firstUs() {
        return Math.min(firstUs, lastUs);
    }

    /** Latest bench time that the log tells of, in µs. */
    long lastUs() {
        return lastUs;
    }

    private Course.ExpectationWindow cutShort(Course.ExpectationWindow window) {
        return new Course.ExpectationWindow(
                window.id(), window.originUs(), window.openedUs(), Math.max(lastUs, window.openedUs()), false);
    }

    @Override
    public void samples(SampleBlock block) {
        recording.samples(block);
        samples += (long) block.rows() * block.stream().points().size();
        reached(block.t0Us() + (block.rows() - 1) * block.stream().everyUs());
    }

    @Override
    public void edge(String point, long atUs, boolean level) {
        recording.edge(point, atUs, level);
        reached(atUs);
    }

    @Override
    public void due(long id, String text, Map<String, Double> values, long dueUs, long overUs) {
        commands.put(id, new Course.Executed(id, text, values, dueUs, Optional.empty(), overUs));
    }

    @Override
    public void executed(long id, long dueUs, long atUs) {
        reached(atUs);
        commands.computeIfPresent(
                id,
                (same, due) -> new Course.Executed(
                        id, due.text(), due.values(), due.dueUs(), Optional.of(atUs), due.overUs()));
    }

    @Override
    public void opened(String expectation, long originUs, long atUs) {
        reached(atUs);
        windows.put(expectation, new Course.ExpectationWindow(expectation, originUs, atUs, Long.MAX_VALUE, false));
    }

    @Override
    public void closed(Course.ExpectationWindow window) {
        reached(window.closedUs());
        windows.put(window.id(), window);
    }

    @Override
    public void safe(long atUs, String why) {
        reached(atUs);
        endUs = Math.min(endUs, atUs);
        remarks.add(new RunRecord.Remark(atUs, "bench made safe: " + why));
    }

    @Override
    public void fault(long atUs, String point, String why) {
        reached(atUs);
        remarks.add(new RunRecord.Remark(atUs, "bench fault" + (point.isEmpty() ? "" : " at " + point) + ": " + why));
    }

    @Override
    public void lost(String streamOrPoint, long fromUs, long toUs) {
        reached(toUs);
        recording.lost(streamOrPoint, fromUs, toUs);
    }

    @Override
    public void trouble(Course.Trouble trouble) {
        reached(trouble.atUs());
        troubles.add(trouble);
    }

    @Override
    public void mark(long atUs, String text) {
        reached(atUs);
        remarks.add(new RunRecord.Remark(atUs, text));
    }

    @Override
    public void end(long atUs, Course.Ending how) {
        reached(atUs);
        recording.reportedUntil(atUs);
        endUs = Math.min(endUs, atUs);
        ending = Optional.of(how);
    }

    private void reached(long atUs) {
        firstUs = Math.min(firstUs, atUs);
        lastUs = Math.max(lastUs, atUs);
    }
}
