package dev.lapwing.cli;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** A sequence of a tenth of a second that a simulated bench with nothing switched on passes. */
final class SmallSequence {
    static final String TEXT = """
            sequence: A small one
            purpose: A wire that stays off with nothing switched on.
            needs: [ep-brake]
            steps:
              - expect:
                  quiet:
                    never: {condition: {wire application: on}, over: 100 ms}
            """;

    private SmallSequence() {}

    /** Writes it, or another made of it, under that name into a folder that is made for it. */
    static void write(Path folder, String name, String text) throws IOException {
        Files.createDirectories(folder);
        Files.writeString(folder.resolve(name + ".yaml"), text.replace("A small one", "Small " + name), UTF_8);
    }
}
