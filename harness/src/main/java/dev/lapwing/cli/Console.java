package dev.lapwing.cli;

import dev.lapwing.evidence.RunRecord;
import dev.lapwing.evidence.WholeRun;
import dev.lapwing.measure.Recording;
import dev.lapwing.plan.Course;
import dev.lapwing.plan.Plan;
import dev.lapwing.plan.PlanStep;
import dev.lapwing.plan.PlannedExpectation;
import dev.lapwing.report.TerminalReport;
import dev.lapwing.run.Progress;
import java.io.PrintWriter;
import java.util.Locale;

/**
 * Shows a run on a terminal: results on standard output, the moving line of progress on standard error and only where a
 * person watches.
 */
final class Console implements Progress {
    /** Bench time between two looks of the moving line. */
    private static final long LOOK_EVERY_US = 2_000_000;

    private final PrintWriter out;
    private final PrintWriter err;
    private final TerminalReport report;
    private final boolean moving;
    private String doing = "";
    private long startedUs;
    private long lookedUs = Long.MIN_VALUE;

    Console(PrintWriter out, PrintWriter err, Reading reading) {
        this.out = out;
        this.err = err;
        this.report = reading.report();
        this.moving = reading.moving();
    }

    void begin(boolean simulated, String unit, String bench, long seed) {
        out.print(report.cautions(simulated));
        out.println("Unit:  " + unit);
        out.println("Bench: " + bench + (simulated ? ", seed " + seed : ""));
        out.flush();
    }

    /** What is to be known before anything is run. */
    void caution(String line) {
        out.print(report.caution(line));
        out.flush();
    }

    @Override
    public void started(Plan plan, long atUs) {
        startedUs = atUs;
        lookedUs = Long.MIN_VALUE;
        doing = plan.title();
        show(atUs);
    }

    @Override
    public void step(Part part, PlanStep step, long atUs) {
        doing = step.text();
        show(atUs);
    }

    @Override
    public void opened(PlannedExpectation expectation, long atUs) {
        doing = expectation.sentence();
        show(atUs);
    }

    @Override
    public void passed(long atUs, Recording recording) {
        if (lookedUs == Long.MIN_VALUE || atUs - lookedUs >= LOOK_EVERY_US) {
            lookedUs = atUs;
            show(atUs);
        }
    }

    @Override
    public void trouble(Course.Trouble trouble) {
        clear();
        err.println("lapwing: " + trouble.why());
    }

    void sequence(RunRecord record) {
        clear();
        out.print(report.sequence(record));
        out.flush();
    }

    void summary(WholeRun run) {
        out.print(report.summary(run));
        out.flush();
    }

    /** Says something to who watches, on a line of its own whatever the moving line shows. For any thread. */
    void aside(String line) {
        err.print((moving ? "\r\u001b[K" : "") + line + System.lineSeparator());
        err.flush();
    }

    void say(String line) {
        out.println(line);
        out.flush();
    }

    private void show(long atUs) {
        if (moving) {
            String line = String.format(Locale.ROOT, "%7.1f s  %s", (atUs - startedUs) * 1e-6, doing);
            int most = report.columns() - 1;
            err.print("\r" + (line.length() > most ? line.substring(0, most - 1) + "…" : line) + "\u001b[K");
            err.flush();
        }
    }

    private void clear() {
        if (moving) {
            err.print("\r\u001b[K");
            err.flush();
        }
    }
}
