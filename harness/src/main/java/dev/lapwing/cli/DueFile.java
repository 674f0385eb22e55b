package dev.lapwing.cli;

import dev.lapwing.files.FileKind;
import dev.lapwing.files.Loaded;
import dev.lapwing.source.Mistake;
import dev.lapwing.source.Place;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;

/** Which kind of file is due at which place of the command line. One of another kind is one mistake, not many. */
enum DueFile {
    SEQUENCE(FileKind.SEQUENCE),
    FIXTURE(FileKind.FIXTURE),
    BENCH(FileKind.BENCH);

    private final FileKind due;

    DueFile(FileKind due) {
        this.due = due;
    }

    <T> Loaded<T> read(Path path, Function<Path, Loaded<T>> load) {
        Optional<FileKind> other = FileKind.of(path).value().filter(kind -> kind != due);
        if (other.isEmpty()) {
            return load.apply(path);
        }
        Mistake mistake = new Mistake(
                new Place(path.toString(), 1, 1),
                "by its key '" + other.get().key() + "' this is " + named(other.get()),
                named(due) + " with the key '" + due.key() + "'",
                hint(other.get()));
        return new Loaded<>(Optional.empty(), List.of(mistake), List.of(path));
    }

    private static String named(FileKind kind) {
        return kind == FileKind.PARTS ? "a file of parts" : "a " + kind.key();
    }

    private static String hint(FileKind kind) {
        return switch (kind) {
            case SEQUENCE -> "sequences are named without an option before them";
            case PARTS -> "a sequence includes it";
            case FIXTURE -> "name it with --unit";
            case BENCH -> "name it with --bench";
        };
    }
}
