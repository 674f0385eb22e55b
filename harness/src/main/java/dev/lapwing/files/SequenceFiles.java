package dev.lapwing.files;

import dev.lapwing.sequence.Sequence;
import java.nio.file.Path;

/** Reads sequences with the parts that they include. */
public final class SequenceFiles {
    private SequenceFiles() {}

    /** The model of that file, or every mistake in it. No exception escapes, whatever the file holds. */
    public static Loaded<Sequence> load(Path path) {
        return new SequenceReader(path).read();
    }
}
