package dev.lapwing.cli;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.files.FileKind;
import dev.lapwing.files.Loaded;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.report.Sentences;
import dev.lapwing.sequence.Sequence;
import dev.lapwing.source.Mistake;
import dev.lapwing.time.WallClock;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Reads files and reports every mistake in them, and what is hardly meant, without running anything. */
@Command(
        name = "check",
        mixinStandardHelpOptions = true,
        description = "Reads sequences, parts, fixtures and bench files and reports every mistake in them.",
        exitCodeList = {"0:no mistakes", "64:mistakes in files or usage"})
final class CheckCommand implements Callable<Integer> {
    @Spec
    private CommandSpec spec;

    @Parameters(arity = "1..*", paramLabel = "FILE", description = "Files, or folders: all YAML files below.")
    private List<Path> files;

    @Option(
            names = "--unit",
            paramLabel = "FIXTURE",
            description = "Also looks up in this unit whatever the sequences name, as a run does.")
    private Optional<Path> unit;

    @Option(
            names = "--bench",
            paramLabel = "FILE",
            description = "The bench on which --unit looks for signals; bench-config/simulated.yaml by default.")
    private Optional<Path> bench;

    @Override
    public Integer call() {
        PrintWriter out = spec.commandLine().getOut();
        List<Path> all = new ArrayList<>();
        LinkedHashSet<Mistake> mistakes = new LinkedHashSet<>();
        for (Path file : files) {
            List<Path> below = YamlFiles.below(file);
            all.addAll(below);
            if (below.isEmpty()) {
                mistakes.add(YamlFiles.nothingIn(file));
            }
        }
        List<String> notes = new ArrayList<>();
        List<Path> sequences = new ArrayList<>();
        for (Path file : all) {
            Loaded<?> loaded = FileKind.check(file);
            mistakes.addAll(loaded.mistakes());
            if (loaded.value().orElse(null) instanceof BenchFile benchFile) {
                notes.addAll(notes(benchFile));
            } else if (loaded.value().orElse(null) instanceof Sequence) {
                sequences.add(file);
            }
        }
        mistakes.addAll(namesAmiss(sequences));
        mistakes.forEach(out::println);
        notes.forEach(out::println);
        out.println(Sentences.count(all.size(), "file") + " read, "
                + (mistakes.isEmpty() ? "no mistakes" : Sentences.count(mistakes.size(), "mistake")));
        if (mistakes.isEmpty() && unit.isEmpty() && !sequences.isEmpty()) {
            out.println("What the sequences name was not looked up in a unit; --unit FIXTURE does that too");
        }
        out.flush();
        return (mistakes.isEmpty() ? ExitCode.PASS : ExitCode.USAGE).code();
    }

    /** What the sequences name and the unit, if one is given, or the bench does not have. */
    private List<Mistake> namesAmiss(List<Path> sequences) {
        if (unit.isEmpty()) {
            return List.of();
        }
        return RunFiles.load(sequences, unit.get(), Home.found().bench(bench), PressureDisplay.PSI)
                .mistakes();
    }

    private static List<String> notes(BenchFile bench) {
        List<String> clauses = new ArrayList<>(
                OverdueCalibrations.of(bench, WallClock.system()).clauses());
        undated(bench).ifPresent(clauses::add);
        withoutSpan(bench).ifPresent(clauses::add);
        return clauses.stream()
                .map(clause -> bench.file() + ": note: " + clause)
                .toList();
    }

    private static String named(List<String> signals, BenchFile bench) {
        long calibrated = bench.inputs().stream()
                .filter(input -> input.calibration().isPresent())
                .count();
        return signals.size() > 1 && signals.size() == calibrated
                ? "any of the " + calibrated + " calibrated signals"
                : String.join(", ", signals);
    }

    /** Channels of a real bench that never need to be calibrated again: no mistake, but hardly meant. */
    private static Optional<String> undated(BenchFile bench) {
        if (bench.undated().isEmpty() || Benches.inThisProcess(bench)) {
            return Optional.empty();
        }
        return Optional.of("no date says until when the calibration holds of "
                + named(bench.undated(), bench)
                + "; state it as 'due', so that nothing measured later is relied upon");
    }

    /** Channels of a real bench of which differences are told as badly as the uncertainty of levels allows. */
    private static Optional<String> withoutSpan(BenchFile bench) {
        if (bench.withoutSpan().isEmpty() || Benches.inThisProcess(bench)) {
            return Optional.empty();
        }
        return Optional.of("nothing says how well the span is known of "
                + named(bench.withoutSpan(), bench)
                + "; differences of their levels are taken to be as doubtful as 'uncertainty' and 'drift' allow: state"
                + " it as 'span' if the certificate tells");
    }
}
