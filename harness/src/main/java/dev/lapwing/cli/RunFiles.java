package dev.lapwing.cli;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.evidence.RunIdentity.SourceFile;
import dev.lapwing.evidence.Sha256;
import dev.lapwing.files.BenchFiles;
import dev.lapwing.files.FixtureFiles;
import dev.lapwing.files.Loaded;
import dev.lapwing.files.SequenceFiles;
import dev.lapwing.fixture.Fixture;
import dev.lapwing.plan.Plan;
import dev.lapwing.plan.Resolution;
import dev.lapwing.plan.Resolver;
import dev.lapwing.plan.Subject;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.sequence.Sequence;
import dev.lapwing.source.Mistake;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * The files of a run, read and resolved.
 *
 * @param fixture the unit
 * @param bench   the bench
 * @param planned each sequence's plan with the files that it came from
 */
record RunFiles(Fixture fixture, BenchFile bench, List<Planned> planned) {

    /** A plan and the files that it came from. */
    record Planned(Plan plan, List<SourceFile> files) {}

    /** Either everything, or every mistake in the way. */
    record Outcome(Optional<RunFiles> files, List<Mistake> mistakes) {}

    static Outcome load(List<Path> sequencePaths, Path unit, Path benchPath, PressureDisplay pressures) {
        LinkedHashSet<Mistake> mistakes = new LinkedHashSet<>();
        Loaded<Fixture> fixture = noting(DueFile.FIXTURE.read(unit, FixtureFiles::load), mistakes);
        Loaded<BenchFile> bench = noting(DueFile.BENCH.read(benchPath, BenchFiles::load), mistakes);
        List<Loaded<Sequence>> sequences = sequencePaths.stream()
                .flatMap(path -> sequences(path, mistakes))
                .map(path -> noting(DueFile.SEQUENCE.read(path, SequenceFiles::load), mistakes))
                .toList();
        if (fixture.value().isEmpty() || bench.value().isEmpty()) {
            return new Outcome(Optional.empty(), List.copyOf(mistakes));
        }
        List<SourceFile> shared = new ArrayList<>(sources("fixture", fixture.files()));
        shared.addAll(sources("bench", bench.files()));
        List<Planned> planned = new ArrayList<>();
        for (Loaded<Sequence> loaded : sequences) {
            loaded.value().ifPresent(sequence -> {
                Resolution resolution = Resolver.resolve(
                        sequence,
                        Subject.of(fixture.value().get()),
                        bench.value().get(),
                        pressures);
                if (resolution instanceof Resolution.Resolved resolved) {
                    List<SourceFile> files = new ArrayList<>(sources("sequence", loaded.files()));
                    files.addAll(shared);
                    planned.add(new Planned(resolved.plan(), files));
                } else if (resolution instanceof Resolution.Mistaken mistaken) {
                    mistakes.addAll(mistaken.mistakes());
                }
            });
        }
        return mistakes.isEmpty()
                ? new Outcome(
                        Optional.of(new RunFiles(
                                fixture.value().get(), bench.value().get(), planned)),
                        List.of())
                : new Outcome(Optional.empty(), List.copyOf(mistakes));
    }

    private static Stream<Path> sequences(Path path, LinkedHashSet<Mistake> mistakes) {
        List<Path> files = YamlFiles.in(path);
        if (files.isEmpty()) {
            mistakes.add(YamlFiles.nothingIn(path));
        }
        return files.stream();
    }

    private static <T> Loaded<T> noting(Loaded<T> loaded, LinkedHashSet<Mistake> mistakes) {
        mistakes.addAll(loaded.mistakes());
        return loaded;
    }

    private static List<SourceFile> sources(String kind, List<Path> files) {
        List<SourceFile> sources = new ArrayList<>();
        for (Path file : files) {
            sources.add(new SourceFile(sources.isEmpty() ? kind : kind + " part", file.toString(), sha256(file)));
        }
        return sources;
    }

    private static String sha256(Path file) {
        try {
            return Sha256.of(Files.readAllBytes(file));
        } catch (IOException e) {
            throw new UncheckedIOException("cannot read " + file, e);
        }
    }
}
