package dev.lapwing.run;

import dev.lapwing.bench.SampleBlock;
import dev.lapwing.evidence.RecordFailure;
import dev.lapwing.evidence.RunLog;
import dev.lapwing.plan.Course;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/** A run log as lines of text; fails at a call of choice. */
final class LoggedRun implements RunLog {
    final List<String> lines = new ArrayList<>();
    final List<Course.ExpectationWindow> windows = new ArrayList<>();
    final List<Course.Trouble> troubles = new ArrayList<>();
    private final int failsAt;
    private int calls;

    LoggedRun() {
        this(Integer.MAX_VALUE);
    }

    /** @param failsAt number of the call from which on it cannot be written any more, from 1 */
    LoggedRun(int failsAt) {
        this.failsAt = failsAt;
    }

    int calls() {
        return calls;
    }

    private void line(String text) {
        calls++;
        if (calls >= failsAt) {
            throw new RecordFailure("no space left", new IllegalStateException());
        }
        lines.add(text);
    }

    @Override
    public void samples(SampleBlock block) {
        line("samples");
    }

    @Override
    public void edge(String point, long atUs, boolean level) {
        line("edge " + point + " " + level);
    }

    @Override
    public void executed(long id, long dueUs, long atUs) {
        line("executed " + id);
    }

    @Override
    public void safe(long atUs, String why) {
        line("safe " + why);
    }

    @Override
    public void fault(long atUs, String point, String why) {
        line("fault " + point + " " + why);
    }

    @Override
    public void lost(String streamOrPoint, long fromUs, long toUs) {
        line("lost " + streamOrPoint);
    }

    @Override
    public void due(long id, String text, Map<String, Double> values, long dueUs, long overUs) {
        line("due " + text);
    }

    @Override
    public void opened(String expectation, long originUs, long atUs) {
        line("opened " + expectation);
    }

    @Override
    public void closed(Course.ExpectationWindow window) {
        line("closed " + window.id() + (window.complete() ? "" : " incomplete"));
        windows.add(window);
    }

    @Override
    public void trouble(Course.Trouble trouble) {
        line("trouble " + trouble.kind());
        troubles.add(trouble);
    }

    @Override
    public void mark(long atUs, String text) {
        line("mark " + text);
    }

    @Override
    public void end(long atUs, Course.Ending ending) {
        line("end " + ending);
    }

    List<String> without(String what) {
        return lines.stream().filter(line -> !line.startsWith(what)).toList();
    }
}
