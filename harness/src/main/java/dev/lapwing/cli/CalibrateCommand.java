package dev.lapwing.cli;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Input;
import dev.lapwing.evidence.DiskReason;
import dev.lapwing.files.CalibrationFile;
import dev.lapwing.files.NewCalibration;
import dev.lapwing.run.OperatorStop;
import dev.lapwing.source.Mistake;
import dev.lapwing.time.WallClock;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** Calibrates one input against applied reference values, and writes it back to the bench file. */
@Command(
        name = "calibrate",
        mixinStandardHelpOptions = true,
        description = "Leads through the calibration of one signal and writes it to the bench file. Arms nothing.",
        exitCodeList = {
            "0:the calibration was written",
            "2:it was left before it was written",
            "3:the bench broke, or the file could not be written"
        })
final class CalibrateCommand implements Callable<Integer> {
    @Spec
    private CommandSpec spec;

    @Mixin
    private Reading reading;

    @Mixin
    private GivenBench given;

    @Option(
            names = "--signal",
            required = true,
            paramLabel = "KEY",
            description = "The signal, as the bench file names it, such as brake-pipe@1 or brake-cylinder@4.")
    private String signal;

    @Override
    public Integer call() {
        PrintWriter err = spec.commandLine().getErr();
        Optional<BenchFile> read = given.read(err);
        if (read.isEmpty()) {
            return ExitCode.USAGE.code();
        }
        BenchFile bench = read.get();
        Path file = given.file();
        Input input = input(bench);
        OperatorStop stop = new OperatorStop();
        StopSignals.passTo(stop::ask);
        Operator operator =
                new Operator(RunCommand.answers(), spec.commandLine().getOut(), stop::asked);
        LocalDate today = LocalDate.ofInstant(WallClock.system().now(), ZoneOffset.UTC);
        Optional<NewCalibration> made;
        try (Bench open = Benches.outside(bench)) {
            made = new CalibrationDialogue(bench, input, reading.pressures(), operator, today).on(open);
        } catch (BenchFailure e) {
            err.println("lapwing: nothing was written: " + e.getMessage());
            return ExitCode.ERROR.code();
        }
        if (made.isEmpty()) {
            operator.say("Nothing was written; " + file + " is as it was.");
            return ExitCode.INCONCLUSIVE.code();
        }
        return written(bench, input, made.get(), operator).code();
    }

    /** What took an hour to find out is not lost with a full disk: where it cannot be written it is told. */
    private ExitCode written(BenchFile bench, Input input, NewCalibration made, Operator operator) {
        PrintWriter err = spec.commandLine().getErr();
        Path file = given.file();
        try {
            List<Mistake> mistakes =
                    CalibrationFile.write(file, bench, input.signal().key(), made);
            if (mistakes.isEmpty()) {
                operator.say("Written to " + file + "; as it was it lies in " + file + ".previous");
                return ExitCode.PASS;
            }
            err.println(MistakeList.of(mistakes));
            err.println("lapwing: nothing was written; " + file + " is as it was.");
        } catch (IOException e) {
            err.println("lapwing: nothing was written, for " + file + " cannot be written: " + DiskReason.of(e));
        }
        operator.say("What was to be written is the calibration of '"
                + input.signal().key() + "':");
        made.lines().forEach(line -> operator.say("    " + line));
        return ExitCode.ERROR;
    }

    private Input input(BenchFile bench) {
        return bench.inputs().stream()
                .filter(input -> input.signal().key().equals(signal)
                        && input.calibration().isPresent())
                .findFirst()
                .orElseThrow(() -> new ParameterException(
                        spec.commandLine(),
                        "--signal: the bench file calibrates no '" + signal + "'; it does "
                                + String.join(
                                        ", ",
                                        bench.inputs().stream()
                                                .filter(input ->
                                                        input.calibration().isPresent())
                                                .map(input -> input.signal().key())
                                                .toList())));
    }
}
