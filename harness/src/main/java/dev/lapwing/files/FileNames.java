package dev.lapwing.files;

import java.nio.file.Path;

/** Names that models take from their files. */
final class FileNames {
    private FileNames() {}

    /** {@code 02-ep-staircase} for {@code sequences/overhaul/02-ep-staircase.yaml}. */
    static String withoutEnding(Path path) {
        String name = path.getFileName() == null ? "" : path.getFileName().toString();
        int dot = name.lastIndexOf('.');
        return dot > 0 ? name.substring(0, dot) : name;
    }
}
