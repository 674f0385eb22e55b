package dev.lapwing.files;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.source.Mistake;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Broken files, each beside the mistakes that must be found in it, all in one go: {@code [file:]line:column}, then what
 * the message must name, parted by bars.
 */
class BrokenFilesTest {
    private static final Path ROOT = Path.of("harness/src/test/resources/broken");

    /** A line of a list of mistakes. */
    private record Expected(String place, List<String> parts) {
        static Expected of(String line, Path broken) {
            String[] words = line.split(" ", 2);
            boolean elsewhere = words[0].split(":").length == 3;
            Path file = elsewhere
                    ? broken.resolveSibling(words[0].substring(0, words[0].indexOf(':')))
                            .normalize()
                    : broken;
            String inFile = elsewhere ? words[0].substring(words[0].indexOf(':') + 1) : words[0];
            return new Expected(file + ":" + inFile, List.of(words[1].split(" \\| ")));
        }
    }

    static List<Path> broken() {
        try (Stream<Path> tree = Files.walk(ROOT)) {
            return tree.filter(path -> path.toString().endsWith(".yaml"))
                    .sorted()
                    .toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    @ParameterizedTest
    @MethodSource("broken")
    void everyMistakeIsFoundAtItsPlaceInOneGo(Path path) throws IOException {
        List<Expected> expected = Files.readString(list(path), UTF_8)
                .lines()
                .map(line -> Expected.of(line, path))
                .toList();
        List<Mistake> found = FileKind.check(path).mistakes();

        assertThat(found)
                .extracting(mistake -> mistake.place().toString())
                .containsExactly(expected.stream().map(Expected::place).toArray(String[]::new));
        for (int i = 0; i < found.size(); i++) {
            assertThat(found.get(i).toString()).contains(expected.get(i).parts());
        }
    }

    @ParameterizedTest
    @MethodSource("broken")
    void aBrokenFileGivesNoValue(Path path) {
        assertThat(FileKind.check(path).value()).isEmpty();
    }

    /** The wording, once for each family; elsewhere only places and parts are held. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "yaml/tab",
                "sequence/unknown-words",
                "sequence/figures",
                "parts/circle",
                "fixture/acceptance-figures",
                "fixture/simulation",
                "bench/inputs"
            })
    void mistakesReadAsTheyShould(String name) throws IOException {
        Path path = ROOT.resolve(name + ".yaml");
        String read = String.join(
                "",
                FileKind.check(path).mistakes().stream()
                        .map(mistake -> mistake.toString().replace(path + ":", "") + "\n")
                        .toList());
        assertThat(read).isEqualTo(Files.readString(ROOT.resolve(name + ".wording"), UTF_8));
    }

    @Test
    void thereAreAtLeastForty() {
        assertThat(broken()).hasSizeGreaterThanOrEqualTo(40);
    }

    private static Path list(Path broken) {
        String name = broken.getFileName().toString();
        return broken.resolveSibling(name.substring(0, name.length() - ".yaml".length()) + ".mistakes");
    }
}
