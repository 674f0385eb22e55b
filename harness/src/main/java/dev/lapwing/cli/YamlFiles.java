package dev.lapwing.cli;

import dev.lapwing.source.Mistake;
import dev.lapwing.source.Place;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** The files that a user means by a path. */
final class YamlFiles {
    /** Folders in folders that are looked into; ours are two deep. */
    private static final int DEPTH_MAX = 8;

    private YamlFiles() {}

    /** The file itself, or the YAML files right inside a folder in the order of their names, perhaps none. */
    static List<Path> in(Path path) {
        return found(path, 1);
    }

    /** The file itself, or the YAML files of a folder and of the folders in it, perhaps none. */
    static List<Path> below(Path path) {
        return found(path, DEPTH_MAX);
    }

    /** What is said of a folder without YAML files. */
    static Mistake nothingIn(Path folder) {
        try (Stream<Path> inside = Files.list(folder)) {
            String folders = inside.filter(path -> Files.isDirectory(path) && !in(path).isEmpty())
                    .map(Path::toString)
                    .sorted()
                    .collect(Collectors.joining("' or '"));
            return new Mistake(
                    new Place(folder.toString(), 1, 1),
                    "no YAML file is right in this folder",
                    "",
                    folders.isEmpty() ? "" : "did you mean '" + folders + "'?");
        } catch (IOException e) {
            throw new UncheckedIOException("cannot read folder " + folder, e);
        }
    }

    private static List<Path> found(Path path, int depth) {
        if (!Files.isDirectory(path)) {
            return List.of(path);
        }
        try (Stream<Path> inside = Files.walk(path, depth)) {
            return inside.filter(YamlFiles::isYaml).sorted().toList();
        } catch (IOException e) {
            throw new UncheckedIOException("cannot read folder " + path, e);
        }
    }

    private static boolean isYaml(Path file) {
        String name = file.getFileName().toString();
        return Files.isRegularFile(file) && (name.endsWith(".yaml") || name.endsWith(".yml"));
    }
}
