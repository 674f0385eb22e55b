package dev.lapwing.cli;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.files.BenchFiles;
import dev.lapwing.files.FixtureFiles;
import dev.lapwing.files.Loaded;
import dev.lapwing.fixture.Fixture;
import dev.lapwing.source.Mistake;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** A unit and the bench that it is simulated on, as their files say. */
record Simulable(Fixture unit, BenchFile bench) {

    /** Empty if either file has mistakes, which are told. */
    static Optional<Simulable> read(Path unit, Path bench, PrintWriter err) {
        Loaded<Fixture> fixture = FixtureFiles.load(unit);
        Loaded<BenchFile> file = BenchFiles.load(bench);
        Optional<Simulable> both = fixture.value().flatMap(one -> file.value().map(other -> new Simulable(one, other)));
        if (both.isEmpty()) {
            List<Mistake> mistakes = new ArrayList<>(fixture.mistakes());
            mistakes.addAll(file.mistakes());
            err.println(MistakeList.of(mistakes));
        }
        return both;
    }
}
