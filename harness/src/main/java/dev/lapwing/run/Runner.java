package dev.lapwing.run;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.evidence.RecordFailure;
import dev.lapwing.evidence.RunLog;
import dev.lapwing.measure.GrowingRecording;
import dev.lapwing.plan.Course;
import dev.lapwing.plan.Course.Trouble;
import dev.lapwing.plan.Plan;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Executes plans on one bench, stepped by bench time: no wall clock and no thread of its own. Whatever happens, a run
 * ends in one place, where the bench is made safe. For the one thread that calls {@link #run}.
 *
 * <p>Tidy-up steps are done after the steps or the operator's first stop, while the bench is armed; never after a trip,
 * a fault, a failure of the bench or of the record, or the operator's second stop.
 */
public final class Runner {
    /**
     * A bench is in trouble that has not said so many lags after it was told that it is safe. Twice as long as it may
     * take until its next state says so.
     */
    private static final int SAFE_LAGS = 40;

    private final Bench bench;
    private final Progress progress;
    private final OperatorStop operator;
    private final Map<String, WireLevel> levels = new HashMap<>();
    private long commandId;
    private boolean armed;

    /** The bench is armed by the first run, and stays the caller's to close. */
    public Runner(Bench bench, Progress progress, OperatorStop operator) {
        this.bench = bench;
        this.progress = progress;
        this.operator = operator;
    }

    /**
     * Executes a plan.
     *
     * @param log        told everything, and its end, unless it fails itself
     * @param afterwards what becomes of the bench after a run without trouble
     * @throws RecordFailure if the log cannot be written; the bench is safe then
     */
    public Outcome run(Plan plan, RunLog log, Afterwards afterwards) {
        Run run = new Run(plan, log);
        try {
            boolean staysArmed = stepsThenSafe(run, afterwards);
            return concluded(run, staysArmed);
        } catch (RecordFailure e) {
            throw e;
        } catch (RuntimeException e) {
            run.brokenBy(e);
            throw e;
        }
    }

    private boolean stepsThenSafe(Run run, Afterwards afterwards) {
        boolean staysArmed = false;
        try {
            run.steps();
            staysArmed = afterwards == Afterwards.STAY_ARMED && run.untroubled();
            return staysArmed;
        } finally {
            armed = staysArmed;
            // The one way to safe: complete or not, and whatever was thrown above.
            if (!staysArmed) {
                bench.safe();
            }
        }
    }

    private Outcome concluded(Run run, boolean staysArmed) {
        boolean done = false;
        try {
            Outcome outcome = run.conclude(staysArmed);
            done = true;
            return outcome;
        } finally {
            // An armed bench stays so only under a run whose record is whole.
            if (staysArmed && !done) {
                armed = false;
                bench.safe();
            }
        }
    }

    /** One plan on the bench. */
    private final class Run {
        private final Plan plan;
        private final RunLog log;
        private final GrowingRecording recording;
        private final BenchReports reports;
        private final BenchTime time;
        private final Performance performance;
        private final List<Trouble> troubles = new ArrayList<>();
        /** What ended the run, to be told when the bench is safe. */
        private Optional<Trouble> untold = Optional.empty();

        private boolean complete;
        private boolean wasArmed;

        Run(Plan plan, RunLog log) {
            this.plan = plan;
            this.log = log;
            recording = new GrowingRecording(plan.bench());
            reports = new BenchReports(log, recording, levels);
            time = new BenchTime(bench, log, recording, reports, progress, operator);
            performance = new Performance(
                    bench, time, reports, recording, new Stimuli(plan.bench()), log, progress, () -> ++commandId);
        }

        void steps() {
            try {
                arm();
                progress.started(plan, bench.nowUs());
                tidiedUp(this::prepareStartAndSteps);
                if (untroubled()) {
                    // While the bench still tells all: what happened until here, a trip too, is of this run.
                    time.drain();
                    time.look();
                }
            } catch (BenchFailure e) {
                untold = Optional.of(new Trouble(Trouble.Kind.BENCH, bench.nowUs(), e.getMessage()));
            } catch (CutShort e) {
                untold = Optional.of(e.trouble());
            }
        }

        boolean untroubled() {
            return troubles.isEmpty() && untold.isEmpty();
        }

        private void arm() throws BenchFailure, CutShort {
            time.look();
            if (armed) {
                reports.tellLevels(bench.nowUs());
            } else {
                levels.clear();
                bench.arm();
            }
            wasArmed = true;
        }

        private void prepareStartAndSteps() throws BenchFailure, CutShort {
            performance.perform(Progress.Part.PREPARE, plan.prepare());
            performance.perform(Progress.Part.START, plan.start());
            performance.perform(Progress.Part.STEPS, plan.steps());
            complete = true;
        }

        private void tidiedUp(Steps steps) throws BenchFailure, CutShort {
            try {
                steps.perform();
            } catch (CutShort e) {
                if (e.trouble().kind() == Trouble.Kind.BENCH || operator.askedAgain()) {
                    throw e;
                }
                cutShort(e.trouble());
            }
            performance.tidyUp(plan.tidyUp());
        }

        private void cutShort(Trouble trouble) {
            time.windows().cutShort(bench.nowUs());
            tell(trouble);
        }

        private void tell(Trouble trouble) {
            troubles.add(trouble);
            log.trouble(trouble);
            progress.trouble(trouble);
        }

        /** Takes what the bench still has to say, and ends the log. */
        Outcome conclude(boolean staysArmed) {
            untold.ifPresent(this::cutShort);
            if (!staysArmed) {
                drain();
            }
            Course.Ending ending = complete ? Course.Ending.COMPLETE : Course.Ending.CUT_SHORT;
            log.end(time.drainedUs(), ending);
            progress.ended(bench.nowUs(), ending);
            return new Outcome(ending, troubles, staysArmed);
        }

        private void drain() {
            try {
                time.drain();
                long patienceUs = bench.nowUs() + SAFE_LAGS * bench.lagUs();
                while (wasArmed && reports.safe().isEmpty()) {
                    if (bench.nowUs() >= patienceUs) {
                        throw new BenchFailure("the bench did not say that it is safe; make sure by hand that it is"
                                + reports.fault()
                                        .map(told -> ". It told: " + told)
                                        .orElse(""));
                    }
                    time.drain(bench.nowUs() + BenchTime.SLICE_US);
                }
            } catch (BenchFailure e) {
                // One failure of the bench is told once; a dead link fails here again.
                if (troubles.stream().noneMatch(t -> t.kind() == Trouble.Kind.BENCH)) {
                    tell(new Trouble(Trouble.Kind.BENCH, bench.nowUs(), e.getMessage()));
                }
            }
        }

        /** Leaves a readable record of a run that an error of the harness broke. */
        void brokenBy(RuntimeException error) {
            try {
                log.trouble(new Trouble(Trouble.Kind.BENCH, bench.nowUs(), "an error of the harness ended the run"));
                log.end(bench.nowUs(), Course.Ending.CUT_SHORT);
            } catch (RuntimeException second) {
                error.addSuppressed(second);
            }
        }
    }

    /** Steps of a run that may be cut short. */
    private interface Steps {
        void perform() throws BenchFailure, CutShort;
    }
}
