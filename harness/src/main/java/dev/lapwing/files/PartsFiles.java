package dev.lapwing.files;

import dev.lapwing.sequence.Sequence.Part;
import dev.lapwing.source.Mistakes;
import dev.lapwing.source.Place;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Reads a file of parts, for itself: with what it includes, without a sequence that calls it. */
public final class PartsFiles {
    private PartsFiles() {}

    /** Its parts and the included ones by name, or every mistake in it. No exception escapes. */
    public static Loaded<Map<String, Part>> load(Path path) {
        Mistakes mistakes = new Mistakes();
        mistakes.add(new Place(path.toString(), 1, 1), "files of this kind are not read in this build", "", "");
        return new Loaded<>(Optional.empty(), mistakes.all(), List.of(path));
    }
}
