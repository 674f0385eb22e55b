package dev.lapwing.cli;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.challenge.Answer;
import dev.lapwing.challenge.CoverageStudy;
import dev.lapwing.challenge.CoverageTable;
import dev.lapwing.fixture.Fixture;
import dev.lapwing.report.Sentences;
import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.IntFunction;
import java.util.stream.IntStream;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Holds stated uncertainties against a known truth. */
@Command(
        name = "coverage",
        mixinStandardHelpOptions = true,
        description = {
            "Says how often stated uncertainties hold the truth, on simulated trains of which it is known.",
            "Each run has a bench drawn at random."
        },
        exitCodeList = {"0:every uncertainty was as stated", "1:one was not"})
final class CoverageCommand implements Callable<Integer> {
    /** Runs with nothing wrong but sampling. */
    private static final int IDEAL_RUNS = 80;

    @Spec
    private CommandSpec spec;

    @Option(
            names = "--runs",
            defaultValue = "200",
            paramLabel = "NUMBER",
            converter = WholeNumber.Runs.class,
            description = "How many runs, 1 to 1000000; ${DEFAULT-VALUE} by default.")
    private int runs;

    @Mixin
    private ChosenUnit chosen;

    @Override
    public Integer call() throws InterruptedException {
        PrintWriter out = spec.commandLine().getOut();
        PrintWriter err = spec.commandLine().getErr();
        Home home = Home.found();
        Optional<Simulable> given = Simulable.read(chosen.fixture(home), home.bench(Optional.empty()), err);
        if (given.isEmpty()) {
            return ExitCode.USAGE.code();
        }
        Fixture fixture = given.get().unit();
        try {
            CoverageStudy study =
                    CoverageStudy.of(given.get().bench(), fixture, CoverageStudy.SPECIMENS, chosen.seed());
            CoverageTable table = CoverageTable.of(all(study::run, runs), all(study::ideal, IDEAL_RUNS));
            out.println(Sentences.count(runs, "run") + ", seed " + chosen.seed() + ", " + fixture.title());
            out.println();
            out.print(table.text());
            out.flush();
            return (table.met() ? ExitCode.PASS : ExitCode.FAIL).code();
        } catch (BenchFailure e) {
            err.println("lapwing: " + e.getMessage());
            return ExitCode.USAGE.code();
        }
    }

    /** A run that may fail as benches do. */
    private interface Run {
        List<Answer> answers(int number) throws BenchFailure;
    }

    private static List<Answer> all(Run run, int count) throws BenchFailure, InterruptedException {
        ExecutorService threads =
                Executors.newFixedThreadPool(Runtime.getRuntime().availableProcessors());
        try {
            List<Future<List<Answer>>> underWay = IntStream.range(0, count)
                    .mapToObj((IntFunction<Future<List<Answer>>>) i -> threads.submit(() -> run.answers(i)))
                    .toList();
            List<Answer> answers = new ArrayList<>();
            for (Future<List<Answer>> future : underWay) {
                answers.addAll(future.get());
            }
            return answers;
        } catch (ExecutionException e) {
            if (e.getCause() instanceof BenchFailure failure) {
                throw failure;
            }
            throw new IllegalStateException("a run of the study broke", e.getCause());
        } finally {
            threads.shutdownNow();
        }
    }
}
