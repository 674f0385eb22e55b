package dev.lapwing.cli;

import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** Everything about benches themselves. */
@Command(
        name = "bench",
        mixinStandardHelpOptions = true,
        description = "Serves a simulated bench; shows, listens to, exercises and calibrates real ones.",
        subcommands = {
            ServeCommand.class,
            ShowCommand.class,
            ListenCommand.class,
            ExerciseCommand.class,
            CalibrateCommand.class
        })
final class BenchCommand implements Callable<Integer> {
    @Spec
    private CommandSpec spec;

    @Override
    public Integer call() {
        spec.commandLine().usage(spec.commandLine().getOut());
        return ExitCode.USAGE.code();
    }
}
