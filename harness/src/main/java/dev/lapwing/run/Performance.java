package dev.lapwing.run;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.evidence.RunLog;
import dev.lapwing.measure.ConditionWatch;
import dev.lapwing.measure.Recording;
import dev.lapwing.measure.WaitedFor;
import dev.lapwing.plan.Course.Trouble;
import dev.lapwing.plan.PlanStep;
import dev.lapwing.plan.PlannedExpectation;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalLong;
import java.util.function.LongSupplier;

/** Does steps on an armed bench. */
final class Performance {
    /** A command whose execution is not told so many lags of the bench after it was due is lost. */
    private static final int EXECUTION_LAGS = 40;
    /** No tidy-up step takes longer, in µs. */
    static final long TIDY_STEP_US = 60_000_000;

    private final Bench bench;
    private final BenchTime time;
    private final BenchReports reports;
    private final Recording recording;
    private final Stimuli stimuli;
    private final RunLog log;
    private final Progress progress;
    private final LongSupplier commandIds;
    /** Bench time of the newest stimulus of this run, or of what was waited for since. */
    private OptionalLong origin = OptionalLong.empty();
    /** Bound of the error of that instant, in µs. */
    private long originBoundUs;

    private long deadlineUs = Long.MAX_VALUE;

    Performance(
            Bench bench,
            BenchTime time,
            BenchReports reports,
            Recording recording,
            Stimuli stimuli,
            RunLog log,
            Progress progress,
            LongSupplier commandIds) {
        this.bench = bench;
        this.time = time;
        this.reports = reports;
        this.recording = recording;
        this.stimuli = stimuli;
        this.log = log;
        this.progress = progress;
        this.commandIds = commandIds;
    }

    void perform(Progress.Part part, List<? extends PlanStep> steps) throws BenchFailure, CutShort {
        int next = 0;
        while (next < steps.size()) {
            int end = BriskCommands.end(steps, next);
            if (end == next) {
                perform(part, steps.get(next));
                next++;
            } else {
                briskly(part, steps.subList(next, end));
                next = end;
            }
        }
    }

    /** Does each of the steps for a limited time, and goes on with the next where one does not come to its end. */
    void tidyUp(List<PlanStep> steps) throws BenchFailure, CutShort {
        time.tidying();
        for (PlanStep step : steps) {
            deadlineUs = time.nowUs() + TIDY_STEP_US;
            try {
                perform(Progress.Part.TIDY_UP, step);
            } catch (CutShort e) {
                if (e.trouble().kind() != Trouble.Kind.NOT_REACHED) {
                    throw e;
                }
                log.mark(time.nowUs(), "tidying up, left undone: " + e.trouble().why());
            }
        }
    }

    private void perform(Progress.Part part, PlanStep step) throws BenchFailure, CutShort {
        progress.step(part, step, time.nowUs());
        if (step instanceof PlanStep.Drive drive) {
            drive(drive);
        } else if (step instanceof PlanStep.Wait wait) {
            passUntil(time.nowUs() + wait.us(), wait);
        } else if (step instanceof PlanStep.WaitUntil until) {
            waitUntil(until);
        } else if (step instanceof PlanStep.Expect expect) {
            open(expect.expectations());
            untilDecided(expect.expectations(), expect);
        } else if (step instanceof PlanStep.While during) {
            open(during.expectations());
            perform(part, during.steps());
            time.windows().closeLasting(during.expectations(), time.nowUs());
            untilDecided(during.expectations(), during);
        }
    }

    private void drive(PlanStep.Drive step) throws BenchFailure, CutShort {
        long dueUs = time.nowUs() + bench.lagUs();
        executed(step, command(step, dueUs), dueUs);
        passUntil(origin.orElseThrow() + step.overUs(), step);
    }

    /** Asks the bench for all of them ahead of time, so that what lies between them is as short as it is written. */
    private void briskly(Progress.Part part, List<? extends PlanStep> steps) throws BenchFailure, CutShort {
        long dueUs = time.nowUs() + bench.lagUs();
        List<Asked> asked = new ArrayList<>();
        for (PlanStep step : steps) {
            progress.step(part, step, time.nowUs());
            if (step instanceof PlanStep.Wait wait) {
                dueUs += wait.us();
            } else if (step instanceof PlanStep.Drive drive) {
                asked.add(new Asked(drive, command(drive, dueUs), dueUs));
            }
        }
        for (Asked one : asked) {
            executed(one.step(), one.id(), one.dueUs());
        }
    }

    /** A command that the bench was asked for. */
    private record Asked(PlanStep.Drive step, long id, long dueUs) {}

    private long command(PlanStep.Drive step, long dueUs) throws BenchFailure {
        var counts = stimuli.counts(step.values());
        long id = commandIds.getAsLong();
        log.due(id, step.text(), Stimuli.byKey(step.values()), dueUs, step.overUs());
        bench.set(id, counts, dueUs, step.overUs());
        return id;
    }

    /** Waits for the bench's word that it was done; that instant is the new origin. */
    private void executed(PlanStep.Drive step, long id, long dueUs) throws BenchFailure, CutShort {
        long lagsUs = EXECUTION_LAGS * bench.lagUs();
        long patienceUs = dueUs + lagsUs;
        while (reports.executed(id).isEmpty()) {
            if (time.nowUs() >= patienceUs) {
                throw new BenchFailure(
                        "the bench did not say within " + lagsUs / 1e6 + " s that '" + step.text() + "' was done");
            }
            time.slice(time.nowUs() < dueUs ? dueUs : patienceUs);
        }
        origin = reports.executed(id);
        originBoundUs = stimuli.boundUs(step.values());
    }

    private void waitUntil(PlanStep.WaitUntil step) throws BenchFailure, CutShort {
        long fromUs = time.nowUs();
        long limitUs = Math.min(deadlineUs, fromUs + step.atMostUs());
        // Reports from before the limit are waited for.
        long reportedUs = limitUs + time.reportsLateUs();
        ConditionWatch watch = ConditionWatch.of(step.condition(), fromUs, recording);
        while (true) {
            watch.advance();
            OptionalLong held = watch.firstHeldUs();
            if (held.isPresent() && held.getAsLong() <= limitUs) {
                origin = held;
                originBoundUs = new WaitedFor(recording).boundUs(step.condition(), held.getAsLong());
                return;
            }
            if (held.isPresent() || time.nowUs() >= reportedUs) {
                throw notReached("not reached: " + step.text() + LastReadings.of(step.condition(), recording)
                        + "; see what keeps it from that, or allow more time, and run it again");
            }
            time.slice(reportedUs);
        }
    }

    private void open(List<PlannedExpectation> expectations) {
        long nowUs = time.nowUs();
        time.windows().open(expectations, origin.orElse(nowUs), originBoundUs, nowUs);
        time.windows().look(nowUs);
    }

    private void untilDecided(List<PlannedExpectation> expectations, PlanStep step) throws BenchFailure, CutShort {
        while (time.windows().watching(expectations)) {
            passUntil(time.nowUs() + BenchTime.SLICE_US, step);
        }
    }

    private void passUntil(long untilUs, PlanStep step) throws BenchFailure, CutShort {
        time.passUntil(Math.min(untilUs, deadlineUs));
        if (untilUs > deadlineUs) {
            throw notReached("'" + step.text() + "' would take longer than " + TIDY_STEP_US / 1_000_000 + " s");
        }
    }

    private CutShort notReached(String why) {
        return new CutShort(new Trouble(Trouble.Kind.NOT_REACHED, time.nowUs(), why));
    }
}
