package dev.lapwing.files;

import dev.lapwing.source.Mistakes;
import dev.lapwing.source.NearestName;
import dev.lapwing.source.Place;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;

/** The kinds of file that people write, told apart by the key at their top. */
public enum FileKind {
    SEQUENCE("sequence", SequenceFiles::load),
    PARTS("parts", PartsFiles::load),
    FIXTURE("fixture", FixtureFiles::load),
    BENCH("bench", BenchFiles::load);

    private final String key;
    private final Function<Path, Loaded<?>> loader;

    FileKind(String key, Function<Path, Loaded<?>> loader) {
        this.key = key;
        this.loader = loader;
    }

    /** The key by which a file of this kind is known, which also names the kind. */
    public String key() {
        return key;
    }

    /** Reads a file as one of this kind. */
    public Loaded<?> load(Path path) {
        return loader.apply(path);
    }

    /** Reads a file of whichever kind it is, with every mistake in it. */
    public static Loaded<?> check(Path path) {
        Loaded<FileKind> kind = of(path);
        return kind.value().isPresent() ? kind.value().get().load(path) : kind;
    }

    /** The kind of a file, or why it cannot be told. */
    public static Loaded<FileKind> of(Path path) {
        Mistakes mistakes = new Mistakes();
        Place top = new Place(path.toString(), 1, 1);
        Optional<FileKind> kind = TextFile.read(path, top, mistakes)
                .flatMap(text -> YamlTree.of(path.toString(), text, mistakes))
                .flatMap(root -> of(root, mistakes));
        return kind.isPresent()
                ? new Loaded<>(kind, List.of(), List.of(path))
                : Loaded.of(mistakes, List.of(path), () -> SEQUENCE);
    }

    private static Optional<FileKind> of(Node root, Mistakes mistakes) {
        List<String> keys = root instanceof Node.Entries map
                ? map.entries().stream().map(Node.Entry::key).toList()
                : List.of();
        List<String> all = Arrays.stream(values()).map(FileKind::key).toList();
        Optional<FileKind> exact =
                Arrays.stream(values()).filter(kind -> keys.contains(kind.key)).findFirst();
        if (exact.isPresent()) {
            return exact;
        }
        Optional<FileKind> near = keys.stream()
                .filter(key -> key.length() <= 20)
                .flatMap(key -> NearestName.of(key, all).stream())
                .findFirst()
                .flatMap(key ->
                        Arrays.stream(values()).filter(k -> k.key.equals(key)).findFirst());
        if (near.isEmpty()) {
            mistakes.add(
                    root.place(),
                    "no key at the top says what kind of file this is",
                    all.stream().map(key -> "'" + key + "'").collect(Collectors.joining(", ", "one of ", "")),
                    "");
        }
        return near;
    }
}
