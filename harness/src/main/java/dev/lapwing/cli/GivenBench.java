package dev.lapwing.cli;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.files.BenchFiles;
import dev.lapwing.files.Loaded;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Optional;
import picocli.CommandLine.Parameters;

/** The bench file that a command is given. */
final class GivenBench {
    @Parameters(arity = "1", paramLabel = "FILE", description = "The bench file.")
    private Path file;

    Path file() {
        return file;
    }

    /** Empty if it has mistakes, which are told. */
    Optional<BenchFile> read(PrintWriter err) {
        Loaded<BenchFile> loaded = BenchFiles.load(file);
        if (loaded.value().isEmpty()) {
            err.println(MistakeList.of(loaded.mistakes()));
        }
        return loaded.value();
    }
}
