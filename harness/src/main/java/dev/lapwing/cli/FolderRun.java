package dev.lapwing.cli;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.evidence.OpenRecord;
import dev.lapwing.evidence.RecordFailure;
import dev.lapwing.evidence.RunClass;
import dev.lapwing.evidence.RunIdentity;
import dev.lapwing.evidence.RunRecord;
import dev.lapwing.evidence.RunSession;
import dev.lapwing.evidence.WholeRun;
import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Verdict;
import dev.lapwing.judge.Judge;
import dev.lapwing.plan.Course;
import dev.lapwing.plan.Plan;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.run.Afterwards;
import dev.lapwing.run.OperatorStop;
import dev.lapwing.run.Runner;
import dev.lapwing.time.WallClock;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.SplittableRandom;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;

/**
 * Runs sequences one after the other: a record each, one report over all. An error ends it, a fail does not. A stop
 * between two sequences is an error of the next one, so that no report of what was done reads as the whole.
 */
final class FolderRun {
    private final RunFiles files;
    private final RunChoices choices;
    private final Console console;
    private final OperatorStop stop;
    private final PressureDisplay pressures;
    private final Path folder;
    private final RunSession session;
    private final WallClock wall = WallClock.system();
    private final ExecutorService disk = Executors.newSingleThreadExecutor(FolderRun::diskThread);
    private Optional<OnBench> standing = Optional.empty();
    /** Whether the sequence before left the bench armed, to be continued. */
    private boolean left;

    /** A bench and the runner that drives it. */
    private record OnBench(Bench bench, Runner runner) {}

    FolderRun(RunFiles files, RunChoices choices, Console console, OperatorStop stop, PressureDisplay pressures) {
        this.files = files;
        this.choices = choices;
        this.console = console;
        this.stop = stop;
        this.pressures = pressures;
        Instant now = wall.now();
        String id = RunIdentity.idOf(now, files.fixture().name(), new SplittableRandom(now.toEpochMilli()).nextLong());
        folder = choices.records().resolve(id);
        session = RunSession.begun(
                id,
                choices.runClass(),
                now,
                files.fixture().title(),
                files.bench().name(),
                seed(),
                files.planned().stream().map(FolderRun::due).toList());
    }

    private static RunSession.Due due(RunFiles.Planned planned) {
        Plan plan = planned.plan();
        return new RunSession.Due(
                plan.sequence(), plan.title(), planned.files().get(0).path(), plan.sequence(), Optional.empty());
    }

    /** What draws the specimen, where it is simulated here. */
    private OptionalLong seed() {
        return Benches.inThisProcess(files.bench()) ? OptionalLong.of(choices.seed()) : OptionalLong.empty();
    }

    /** Runs everything and reports it; the greatest verdict of all. */
    Verdict run() {
        console.begin(
                Benches.inThisProcess(files.bench()),
                files.fixture().title(),
                files.bench().name(),
                choices.seed());
        if (Benches.inThisProcess(files.bench())) {
            // Of any other bench it was told before it was armed.
            OverdueCalibrations.of(files.bench(), wall).lines().forEach(console::caution);
        }
        List<RunRecord> records = new ArrayList<>();
        try {
            session.write(folder);
            sequences(records);
        } catch (RecordFailure e) {
            tellWhatThereIs(records, e);
            throw e;
        } finally {
            letGo();
            disk.shutdown();
        }
        RunSession ended = session.ended(wall.now(), records);
        WholeRun run = WholeRun.of(ended, records);
        console.summary(run);
        ended.write(folder);
        written(run);
        return run.verdict();
    }

    private static Thread diskThread(Runnable work) {
        Thread thread = new Thread(work, "lapwing record");
        thread.setDaemon(true);
        return thread;
    }

    private void sequences(List<RunRecord> records) {
        for (int i = 0; i < files.planned().size(); i++) {
            boolean nextContinues = i + 1 < files.planned().size()
                    && files.planned().get(i + 1).plan().continues();
            RunRecord record = one(files.planned().get(i), nextContinues);
            records.add(record);
            console.sequence(record);
            if (record.verdict() == Verdict.ERROR) {
                break;
            }
        }
    }

    /** A full disk takes nothing back: what was finished before it is still told, on the terminal at least. */
    private void tellWhatThereIs(List<RunRecord> records, RecordFailure failure) {
        try {
            if (!records.isEmpty()) {
                WholeRun run = WholeRun.of(session, records);
                console.summary(run);
                written(run);
            }
        } catch (RecordFailure second) {
            failure.addSuppressed(second);
        }
    }

    /** Writes the reports, and says where they are. */
    private void written(WholeRun run) {
        new ReportFiles(folder, pressures).write(run).forEach(console::say);
    }

    private RunRecord one(RunFiles.Planned planned, boolean nextContinues) {
        Plan plan = planned.plan();
        Optional<Course.Trouble> hindrance = hindrance(plan);
        try (OpenRecord open = OpenRecord.create(folder, identity(planned), plan, disk)) {
            long begunUs = hindrance.isPresent() || plan.none()
                    ? 0
                    : standing.orElseThrow().bench().nowUs();
            choices.arming().forEach(line -> open.log().mark(begunUs, line));
            if (hindrance.isPresent()) {
                open.log().trouble(hindrance.get());
                open.log().end(0, Course.Ending.CUT_SHORT);
            } else if (plan.none()) {
                open.log().end(0, Course.Ending.COMPLETE);
            } else {
                left = standing.orElseThrow()
                        .runner()
                        .run(plan, open.log(), nextContinues ? Afterwards.STAY_ARMED : Afterwards.SAFE)
                        .armed();
            }
            return left && standing.isPresent()
                    ? WhileArmed.done(standing.get().bench(), () -> judged(open))
                    : judged(open);
        }
    }

    private RunRecord judged(OpenRecord open) {
        RunRecord recorded = open.read();
        List<Finding> findings = new Judge(pressures).judge(recorded.plan(), recorded.recording(), recorded.course());
        return open.finish(findings, wall.now());
    }

    /** Why the plan cannot be begun, if so; brings its bench otherwise. */
    private Optional<Course.Trouble> hindrance(Plan plan) {
        if (stop.asked()) {
            return Optional.of(new Course.Trouble(
                    Course.Trouble.Kind.OPERATOR, 0, "the operator stopped before this sequence was begun"));
        }
        if (plan.continues() && !plan.none() && !left) {
            letGo();
            return Optional.of(new Course.Trouble(
                    Course.Trouble.Kind.NOT_REACHED,
                    0,
                    "there is nothing that it continues: no sequence before it left the bench armed"));
        }
        return bench(plan).map(why -> new Course.Trouble(Course.Trouble.Kind.BENCH, 0, why));
    }

    /** Brings a fresh bench, unless the plan continues on the one that stands; or says why there is none. */
    private Optional<String> bench(Plan plan) {
        if (plan.none() || plan.continues()) {
            return Optional.empty();
        }
        letGo();
        try {
            Bench bench = Benches.open(files.bench(), files.fixture(), choices.seed());
            standing = Optional.of(new OnBench(bench, new Runner(bench, console, stop)));
            return Optional.empty();
        } catch (BenchFailure e) {
            return Optional.of(e.getMessage());
        }
    }

    private void letGo() {
        standing.ifPresent(on -> on.bench().close());
        standing = Optional.empty();
        left = false;
    }

    private RunIdentity identity(RunFiles.Planned planned) {
        Optional<Bench.Identity> bench = standing.map(on -> on.bench().identity());
        boolean simulated = bench.map(Bench.Identity::simulated).orElse(Benches.inThisProcess(files.bench()));
        return new RunIdentity(
                planned.plan().sequence(),
                session.session(),
                simulated ? RunClass.DRY : choices.runClass(),
                wall.now(),
                choices.operator(),
                choices.serial(),
                bench.map(Bench.Identity::boot).orElse(""),
                simulated,
                seed(),
                choices.harness(),
                "",
                planned.files());
    }
}
