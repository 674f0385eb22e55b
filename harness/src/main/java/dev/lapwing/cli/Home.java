package dev.lapwing.cli;

import java.nio.file.Path;

/** Where the harness stands: its default files, and where records go. The launcher says it. */
record Home(Path root) {

    static Home found() {
        return new Home(Path.of(System.getProperty("lapwing.home", "")).toAbsolutePath());
    }

    /** A file of the harness, named from where the user is if it lies below. */
    Path file(String name) {
        Path file = root.resolve(name).normalize();
        Path here = Path.of("").toAbsolutePath();
        return file.startsWith(here) ? here.relativize(file) : file;
    }
}
