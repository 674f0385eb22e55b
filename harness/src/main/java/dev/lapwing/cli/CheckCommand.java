package dev.lapwing.cli;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.files.FileKind;
import dev.lapwing.files.Loaded;
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
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Reads files and reports every mistake in them, and what is hardly meant, without running anything. */
@Command(
        name = "check",
        mixinStandardHelpOptions = true,
        description = "Reads sequences, parts, fixtures and bench files and reports every mistake in them.")
final class CheckCommand implements Callable<Integer> {
    @Spec
    private CommandSpec spec;

    @Parameters(arity = "1..*", paramLabel = "FILE", description = "Files, or folders: all YAML files below.")
    private List<Path> files;

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
        for (Path file : all) {
            Loaded<?> loaded = FileKind.check(file);
            mistakes.addAll(loaded.mistakes());
            loaded.value()
                    .filter(BenchFile.class::isInstance)
                    .ifPresent(bench -> notes.addAll(notes((BenchFile) bench)));
        }
        mistakes.forEach(out::println);
        notes.forEach(out::println);
        out.println(Words.count(all.size(), "file") + " read, "
                + (mistakes.isEmpty() ? "no mistakes" : Words.count(mistakes.size(), "mistake")));
        out.flush();
        return (mistakes.isEmpty() ? ExitCode.PASS : ExitCode.USAGE).code();
    }

    private static List<String> notes(BenchFile bench) {
        List<String> clauses = new ArrayList<>(
                OverdueCalibrations.of(bench, WallClock.system()).clauses());
        undated(bench).ifPresent(clauses::add);
        return clauses.stream()
                .map(clause -> bench.file() + ": note: " + clause)
                .toList();
    }

    /** Channels of a real bench that never need to be calibrated again: no mistake, but hardly meant. */
    private static Optional<String> undated(BenchFile bench) {
        if (bench.undated().isEmpty() || Benches.inThisProcess(bench)) {
            return Optional.empty();
        }
        return Optional.of("no date says until when the calibration holds of "
                + String.join(", ", bench.undated())
                + "; state it as 'due', so that nothing measured later is relied upon");
    }
}
