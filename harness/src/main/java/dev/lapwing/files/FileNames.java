package dev.lapwing.files;

import java.io.IOException;
import java.nio.file.Path;

/** Names of files, and names that models take from them. */
final class FileNames {
    private FileNames() {}

    /** The same for each way of naming the same file. */
    static Path identity(Path path) {
        try {
            return path.toRealPath();
        } catch (IOException e) {
            return path.toAbsolutePath().normalize();
        }
    }

    /** {@code 02-ep-staircase} for {@code sequences/overhaul/02-ep-staircase.yaml}. */
    static String withoutEnding(Path path) {
        String name = path.getFileName() == null ? "" : path.getFileName().toString();
        int dot = name.lastIndexOf('.');
        return dot > 0 ? name.substring(0, dot) : name;
    }
}
