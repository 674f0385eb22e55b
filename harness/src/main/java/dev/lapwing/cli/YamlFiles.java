package dev.lapwing.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;

/** The files that a user means by a path. */
final class YamlFiles {
    private YamlFiles() {}

    /** The file itself, or the YAML files right inside a folder in the order of their names. */
    static List<Path> in(Path path) {
        if (!Files.isDirectory(path)) {
            return List.of(path);
        }
        try (Stream<Path> inside = Files.list(path)) {
            List<Path> found = inside.filter(YamlFiles::isYaml).sorted().toList();
            return found.isEmpty() ? List.of(path) : found;
        } catch (IOException e) {
            throw new UncheckedIOException("cannot read folder " + path, e);
        }
    }

    private static boolean isYaml(Path file) {
        String name = file.getFileName().toString();
        return Files.isRegularFile(file) && (name.endsWith(".yaml") || name.endsWith(".yml"));
    }
}
