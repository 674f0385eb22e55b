package dev.lapwing.files;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The files that come with the project are free of mistakes. */
class ShippedFilesTest {

    static List<Path> shipped() {
        return Stream.of("sequences", "fixtures", "bench-config")
                .flatMap(folder -> yaml(Path.of(folder)))
                .toList();
    }

    private static Stream<Path> yaml(Path folder) {
        try (Stream<Path> tree = Files.walk(folder)) {
            return tree.filter(path -> path.toString().endsWith(".yaml")).sorted().toList().stream();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    @ParameterizedTest
    @MethodSource("shipped")
    void isFreeOfMistakes(Path path) {
        assertThat(FileKind.check(path).mistakes()).isEmpty();
    }

    @Test
    void thereAreFilesOfEveryKind() {
        assertThat(shipped().stream().map(path -> FileKind.of(path).value().orElseThrow()))
                .contains(FileKind.values());
    }
}
