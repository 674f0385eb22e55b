package dev.lapwing.cli;

import java.nio.file.Path;
import java.util.Optional;

/** Where the harness stands: its default files, and where records go. The launcher says it. */
record Home(Path root) {

    static Home found() {
        return new Home(Path.of(System.getProperty("lapwing.home", "")).toAbsolutePath());
    }

    /** The fixture that is meant; that of the classic unit where none is named. */
    Path fixture(Optional<Path> named) {
        return named.orElse(file("fixtures/classic.yaml"));
    }

    /** The bench file that is meant; that of the simulated bench where none is named. */
    Path bench(Optional<Path> named) {
        return named.orElse(file("bench-config/simulated.yaml"));
    }

    /** A file of the harness, named from where the user is if it lies below. */
    Path file(String name) {
        Path file = root.resolve(name).normalize();
        Path here = Path.of("").toAbsolutePath();
        return file.startsWith(here) ? here.relativize(file) : file;
    }
}
