package dev.lapwing.link;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HexFormat;
import java.util.List;
import java.util.stream.Stream;

/** The worked lines of the published contract, read from its page, so that page and code cannot part. */
final class WorkedLines {
    private static final Path PAGE = Path.of("harness/docs/bench-link.md");

    private WorkedLines() {}

    /** Each line with its CRC, without line feed. */
    static List<String> lines() {
        return indented().filter(line -> line.startsWith("{")).toList();
    }

    /** The dense message, with its zeros. */
    static byte[] dense() {
        return HexFormat.of()
                .parseHex(indented()
                        .filter(line -> line.matches("[0-9a-f]+"))
                        .reduce(String::concat)
                        .orElseThrow());
    }

    /** Whether a bench says it. */
    static boolean ofBench(String line) {
        return line.matches("\\{\"m\":\"(bench|pong|queued|done|refused|samples|edge|state|safe|fault)\".*")
                && !line.startsWith("{\"m\":\"safe\",\"id\"");
    }

    /** The JSON text of a line. */
    static byte[] json(String line) {
        return line.substring(0, line.length() - 9).getBytes(UTF_8);
    }

    private static Stream<String> indented() {
        try {
            return Files.readAllLines(PAGE, UTF_8).stream()
                    .filter(line -> line.startsWith("    "))
                    .map(String::strip);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
