package dev.lapwing.cli;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.run.OperatorStop;
import java.io.PrintWriter;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Live values of a bench that stays safe. */
@Command(
        name = "listen",
        mixinStandardHelpOptions = true,
        description = "Shows live values in their units, wires as on or off, until Ctrl-C. Arms nothing.",
        exitCodeList = {"0:shown until the end", "3:the bench broke"})
final class ListenCommand implements Callable<Integer> {
    @Spec
    private CommandSpec spec;

    @Mixin
    private Reading reading;

    @Mixin
    private GivenBench given;

    @Option(
            names = "--for",
            paramLabel = "TIME",
            converter = WrittenTime.class,
            description = "Ends after that time, with its unit, such as 10s or 5min; at most a day. Until Ctrl-C by"
                    + " default.")
    private Optional<Double> seconds;

    @Override
    public Integer call() {
        PrintWriter err = spec.commandLine().getErr();
        OptionalLong forUs =
                seconds.map(s -> OptionalLong.of(Math.round(s * 1e6))).orElse(OptionalLong.empty());
        Optional<BenchFile> read = given.read(err);
        if (read.isEmpty()) {
            return ExitCode.USAGE.code();
        }
        BenchFile bench = read.get();
        OperatorStop stop = new OperatorStop();
        StopSignals.passTo(stop::ask);
        try (Bench open = Benches.outside(bench)) {
            InputText text = new InputText(bench, reading.pressures());
            boolean moving = reading.moving() && reading.fits(bench.inputs().size() + 1);
            new Listening(bench, text, spec.commandLine().getOut(), moving).to(open, forUs, stop::asked);
            return ExitCode.PASS.code();
        } catch (BenchFailure e) {
            err.println("lapwing: " + e.getMessage());
            return ExitCode.ERROR.code();
        }
    }
}
