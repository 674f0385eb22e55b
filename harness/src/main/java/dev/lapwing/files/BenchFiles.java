package dev.lapwing.files;

import dev.lapwing.bench.BenchFile;
import java.nio.file.Path;

/** Reads bench files. */
public final class BenchFiles {
    private BenchFiles() {}

    /** The model of that file, or every mistake in it. No exception escapes, whatever the file holds. */
    public static Loaded<BenchFile> load(Path path) {
        return new BenchReader(path).read();
    }
}
