package dev.lapwing.cli;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Output;
import dev.lapwing.run.OperatorStop;
import java.io.BufferedReader;
import java.io.PrintWriter;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** One output at a time, there and back, confirmed by who sees it. */
@Command(
        name = "exercise",
        mixinStandardHelpOptions = true,
        description = "Arms the bench and drives one output at a time; you say what you see.",
        exitCodeList = {
            "0:every output was confirmed",
            "1:an output was not confirmed",
            "2:an output was left out",
            "3:the bench broke",
            "64:a mistake in files or usage, or nobody answered for arming: nothing was moved"
        })
final class ExerciseCommand implements Callable<Integer> {
    @Spec
    private CommandSpec spec;

    @Mixin
    private Reading reading;

    @Mixin
    private GivenBench given;

    @Option(
            names = "--output",
            paramLabel = "KEY",
            description = "Only this output of the bench file, such as supply/ep; may be given again. All of them by"
                    + " default.")
    private List<String> keys = List.of();

    @Override
    public Integer call() {
        PrintWriter err = spec.commandLine().getErr();
        PrintWriter out = spec.commandLine().getOut();
        Optional<BenchFile> read = given.read(err);
        if (read.isEmpty()) {
            return ExitCode.USAGE.code();
        }
        BenchFile bench = read.get();
        List<Output> outputs = chosen(bench);
        BufferedReader answers = RunCommand.answers();
        if (new Arming(out, err)
                .by(Optional.empty(), bench, RunCommand.facts(bench, reading.pressures()), answers)
                .isEmpty()) {
            return ExitCode.USAGE.code();
        }
        OperatorStop stop = new OperatorStop();
        Exercise exercise = new Exercise(bench, outputs, reading.pressures(), new Operator(answers, out, stop::asked));
        return exercise(bench, exercise, stop).code();
    }

    private ExitCode exercise(BenchFile bench, Exercise exercise, OperatorStop stop) {
        boolean broke = false;
        StopSignals.passTo(stop::ask);
        try (Bench open = Benches.outside(bench)) {
            StopSignals.passTo(() -> {
                stop.ask();
                open.safe();
            });
            exercise.on(open);
            exercise.end(open);
        } catch (BenchFailure e) {
            broke = true;
            spec.commandLine().getErr().println("lapwing: " + e.getMessage());
        }
        summary(exercise, broke, spec.commandLine().getOut());
        if (broke) {
            return ExitCode.ERROR;
        }
        if (!of(exercise, Exercise.Seen.NOT_CONFIRMED).isEmpty()) {
            return ExitCode.FAIL;
        }
        return of(exercise, Exercise.Seen.LEFT_OUT).isEmpty() ? ExitCode.PASS : ExitCode.INCONCLUSIVE;
    }

    private static void summary(Exercise exercise, boolean broke, PrintWriter out) {
        out.println();
        out.println(
                broke
                        ? "The bench was told to become safe: look that it did. Modules without a watchdog do not by"
                                + " themselves."
                        : "The bench is safe.");
        out.println("Confirmed:     " + listed(of(exercise, Exercise.Seen.CONFIRMED)));
        out.println("Not confirmed: " + listed(of(exercise, Exercise.Seen.NOT_CONFIRMED)));
        out.println("Left out:      " + listed(of(exercise, Exercise.Seen.LEFT_OUT)));
        out.flush();
    }

    private static String listed(List<String> keys) {
        return keys.isEmpty() ? "none" : keys.size() + ": " + String.join(", ", keys);
    }

    private static List<String> of(Exercise exercise, Exercise.Seen seen) {
        return exercise.results().stream()
                .filter(result -> result.seen() == seen)
                .map(Exercise.Result::actuator)
                .toList();
    }

    private List<Output> chosen(BenchFile bench) {
        List<String> known =
                bench.outputs().stream().map(output -> output.actuator().key()).toList();
        keys.stream().filter(key -> !known.contains(key)).findFirst().ifPresent(key -> {
            throw new ParameterException(
                    spec.commandLine(),
                    "--output: the bench file has no '" + key + "'; it has "
                            + known.stream().collect(Collectors.joining(", ")));
        });
        return bench.outputs().stream()
                .filter(output ->
                        keys.isEmpty() || keys.contains(output.actuator().key()))
                .toList();
    }
}
