package dev.lapwing.cli;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.evidence.RecordFailure;
import dev.lapwing.evidence.RunClass;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.run.OperatorStop;
import dev.lapwing.time.WallClock;
import java.io.BufferedReader;
import java.io.InputStreamReader;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Runs sequences on a bench and says what came of it. */
@Command(
        name = "run",
        mixinStandardHelpOptions = true,
        description =
                "Runs sequences on a bench, simulated unless --bench names another, and reports what was measured.",
        exitCodeList = {
            "0:pass",
            "1:fail",
            "2:inconclusive",
            "3:error: bench or harness broke, or it was stopped",
            "64:a mistake in files or usage, or nobody answered for arming: nothing was run"
        })
final class RunCommand implements Callable<Integer> {
    @Spec
    private CommandSpec spec;

    @Mixin
    private Reading reading;

    @Parameters(arity = "1..*", paramLabel = "SEQUENCE", description = "Sequences, or folders of them.")
    private List<Path> sequences;

    @Mixin
    private ChosenUnit chosen;

    @Option(names = "--bench", paramLabel = "FILE", description = "The bench; bench-config/simulated.yaml by default.")
    private Optional<Path> bench;

    @Option(
            names = "--records",
            paramLabel = "DIR",
            description = "Where records go; .records beside the harness by default.")
    private Optional<Path> records;

    @Option(
            names = "--operator",
            defaultValue = "",
            paramLabel = "NAME",
            description = "Who runs it, for the record; who arms, or nobody by default.")
    private String operator;

    @Option(
            names = "--serial",
            defaultValue = "",
            paramLabel = "NUMBER",
            description = "Serial number of the unit, for the record; not stated by default.")
    private String serial;

    @Option(
            names = "--class",
            defaultValue = "dry",
            paramLabel = "CLASS",
            description =
                    "What the run is good for: dry (the default), evidence, investigation or night. A simulated run is"
                            + " dry.")
    private RunClass runClass;

    @Option(
            names = "--armed-by",
            paramLabel = "NAME",
            description = "Who answers for arming a bench that nobody watches; nothing is asked then.")
    private Optional<String> armedBy;

    @Override
    public Integer call() {
        Home home = Home.found();
        PrintWriter err = spec.commandLine().getErr();
        RunFiles.Outcome outcome =
                RunFiles.load(sequences, chosen.fixture(home), home.bench(bench), reading.pressures());
        Optional<String> refused = refused(outcome);
        if (refused.isPresent()) {
            err.println(refused.get());
            err.println("lapwing: nothing was run");
            return ExitCode.USAGE.code();
        }
        BenchFile benchFile = outcome.files().get().bench();
        ArmingFacts.Told facts = facts(benchFile, reading.pressures());
        Optional<List<String>> arming = arming(benchFile, facts);
        if (arming.isEmpty()) {
            boolean ofTheBench = armedBy.isPresent() && !facts.implausible().isEmpty();
            return (ofTheBench ? ExitCode.ERROR : ExitCode.USAGE).code();
        }
        OperatorStop stop = new OperatorStop();
        Console console = new Console(spec.commandLine().getOut(), err, reading);
        stopBy(stop, console);
        RunChoices choices = new RunChoices(
                chosen.seed(),
                records.orElse(home.file(".records")),
                runClass,
                operator,
                serial,
                Lapwing.Version.text(),
                arming.get());
        try {
            FolderRun run = new FolderRun(outcome.files().get(), choices, console, stop, reading.pressures());
            return ExitCode.of(run.run()).code();
        } catch (RecordFailure e) {
            err.println("lapwing: " + e.getMessage());
            err.println("lapwing: the run is over, and the bench was told to make itself safe. What was recorded until"
                    + " then can still be read. Make room there, or name another folder with --records, then run"
                    + " again.");
            return ExitCode.ERROR.code();
        }
    }

    private static void stopBy(OperatorStop stop, Console console) {
        StopSignals.passTo(() -> {
            console.aside(
                    stop.asked()
                            ? "lapwing: stopped again: the bench is made safe without tidying up"
                            : "lapwing: stopping; tidying up, then the bench is made safe (Ctrl-C again: at once)");
            stop.ask();
        });
    }

    /** What the record is to say of the arming, if somebody answers for it; that one is the operator, unless named. */
    private Optional<List<String>> arming(BenchFile benchFile, ArmingFacts.Told facts) {
        if (Benches.inThisProcess(benchFile)) {
            return Optional.of(List.of());
        }
        PrintWriter out = spec.commandLine().getOut();
        PrintWriter err = spec.commandLine().getErr();
        Optional<Arming.Armed> by = new Arming(out, err).by(armedBy, benchFile, facts, answers());
        operator = operator.isEmpty() ? by.map(Arming.Armed::name).orElse("") : operator;
        return by.map(Arming.Armed::remarks);
    }

    /** What can be told of a bench that is to be armed; nothing of one in this process, which never is. */
    static ArmingFacts.Told facts(BenchFile bench, PressureDisplay pressures) {
        return Benches.inThisProcess(bench)
                ? new ArmingFacts.Told(List.of(), List.of())
                : new ArmingFacts(bench, pressures, WallClock.system()).all(() -> Benches.outside(bench));
    }

    /** Where a person types; read only where a bench is to be armed. */
    static BufferedReader answers() {
        return new BufferedReader(new InputStreamReader(System.in, StandardCharsets.UTF_8));
    }

    /** Why nothing can be run. */
    private Optional<String> refused(RunFiles.Outcome outcome) {
        if (outcome.files().isEmpty()) {
            return Optional.of(MistakeList.of(outcome.mistakes()));
        }
        return runClass != RunClass.DRY
                        && Benches.inThisProcess(outcome.files().get().bench())
                ? Optional.of(
                        "lapwing: --class " + runClass.text() + ": this run is simulated, and a simulated run is dry")
                : Optional.empty();
    }
}
