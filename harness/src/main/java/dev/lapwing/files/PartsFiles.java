package dev.lapwing.files;

import dev.lapwing.sequence.Sequence.Part;
import dev.lapwing.source.Mistakes;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;

/** Reads a file of parts, for itself: with what it includes, without a sequence that calls it. */
public final class PartsFiles {
    private PartsFiles() {}

    /** Its parts and the included ones by name, or every mistake in it. No exception escapes. */
    public static Loaded<Map<String, Part>> load(Path path) {
        Mistakes mistakes = new Mistakes();
        Reading reading = new Reading(mistakes);
        Parts parts = new Parts(mistakes, reading, new Steps(reading));
        parts.open(path).ifPresent(root -> parts.file(root, path));
        parts.checkCalls(List.of());
        return Loaded.of(mistakes, parts.files(), parts::parts);
    }
}
