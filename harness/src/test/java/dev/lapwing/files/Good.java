package dev.lapwing.files;

import java.nio.file.Path;
import java.util.List;

/** Files of each kind that use every word there is. */
final class Good {
    static final Path FOLDER = Path.of("harness/src/test/resources/good");
    static final Path SEQUENCE = FOLDER.resolve("sequence.yaml");
    static final Path PARTS = FOLDER.resolve("parts.yaml");
    static final Path FIXTURE = FOLDER.resolve("fixture.yaml");
    static final Path FIXTURE_ON_TOP = FOLDER.resolve("fixture-on-top.yaml");
    static final Path BENCH = FOLDER.resolve("bench.yaml");
    static final List<Path> ALL = List.of(
            SEQUENCE,
            PARTS,
            FOLDER.resolve("more-parts.yaml"),
            FIXTURE,
            FIXTURE_ON_TOP,
            BENCH,
            FOLDER.resolve("bench-at-a-device.yaml"),
            FOLDER.resolve("bench-behind-a-broker.yaml"));

    private Good() {}
}
